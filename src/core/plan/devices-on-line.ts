import type { ConditionMatrix, Totals } from '../domain/segment';
import type { Hardness } from '../domain/snow';
import { deviceAdvice, type DeviceAdvice } from '../pace/rack-advice';

/** Whether capture devices are worth carrying on the whole line in one snow; null where the matrix does not tell. */
export function devicesOnLine({ columns }: ConditionMatrix, hardness: Hardness): DeviceAdvice | null {
  const [without, withDevices] = [false, true].map(
    (devices) =>
      columns.find((column) => column.hardness === hardness && column.captureDevices === devices)?.totals,
  );
  if (without === undefined || withDevices === undefined) return null;
  return deviceAdvice({
    withoutS: wholeS(without),
    withS: wholeS(withDevices),
    noneWithoutM: unheldM(without),
    noneWithM: unheldM(withDevices),
  });
}

const wholeS = ({ time, notComputedBeyondM }: Totals): number | null =>
  notComputedBeyondM === null ? time.defaultS : null;

const unheldM = ({ byMode }: Totals): number => byMode['none-holds'].lengthM;
