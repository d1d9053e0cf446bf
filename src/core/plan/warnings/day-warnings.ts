import type { Warning } from '../../domain/segment';
import { hardnessName } from '../../domain/snow';
import { clockSinceText } from '../../wording/time';
import type { TurnRound } from '../turn-round';
import { isOnWholeLine } from '../way';
import { warn, type Planned } from './warn';

/** What the clock says about the day. */
export function dayWarnings(planned: Planned): Warning[] {
  const { segments, turn, clockProblem, clock, endS } = planned;
  const warnings: Warning[] = [...otherWayBack(planned), ...paintedForNothing(planned)];
  if (clockProblem !== null)
    warnings.push(warn('clock', 2, `No clock times: ${clockProblem.title}. ${clockProblem.remedy}`));

  for (const segment of segments) {
    if (!segment.snowChanged) continue;
    const text = `Reached after the snow has changed to ${hardnessName[segment.snow.hardness]}: decided again for that.`;
    warnings.push(warn('snow-changed', 2, text, segment));
  }
  if (turn !== null) warnings.push(...turningRound(planned, turn));
  else if (clock?.backByS != null && endS !== null && endS > clock.backByS) {
    warnings.push(
      warn('too-late', 3, 'The end of the line is reached after the time to be back by.', segments.at(-1)),
    );
  }
  return warnings;
}

function turningRound({ segments, endS }: Planned, { usual, slow, usualS }: TurnRound): Warning[] {
  if (usual === null)
    return [
      warn(
        'no-turn-round',
        3,
        'No time to turn round: the way back alone takes longer than the day has until the time to be back by.',
      ),
    ];
  const start = segments[0]!.arrive;
  const time = (iso: string) => clockSinceText(iso, start);
  const ifSlow = slow === null ? 'there is no time at all' : `by ${time(slow)}`;
  const text = `Turn round by ${time(usual)}; if the way back goes slowly, ${ifSlow}.`;
  const latest = warn('turn-round', 1, text);
  if (endS === null || endS <= usualS) return [latest];
  const late = `The end of the line is reached after the latest turn-round time, ${time(usual)}.`;
  return [warn('too-late', 3, late, segments.at(-1)), latest];
}

/** Two lines that meet on a summit end no farther apart than this, metres (judgement). */
const besideM = 50;

/** What is not known of a way back by another line. */
function otherWayBack({ otherWayBack: ground, project, decided }: Planned): Warning[] {
  if (ground === null) return [];
  if (ground === 'unread') {
    const text = 'The way back by another line is not planned: there is no such line, or no ground under it.';
    return [warn('way-back', 3, text)];
  }
  const warnings: Warning[] = [];
  if (ground.beginsOffM > besideM) {
    const text = `The way back begins ${Math.round(ground.beginsOffM)} m from the end of the line: what lies between is not planned.`;
    warnings.push(warn('way-back-gap', 2, text));
  }
  const { snowChanges } = project.schedule;
  const isPainted =
    project.overrides.some(({ way, snow }) => way === 'both' && snow !== null) ||
    snowChanges.some((change) => !isOnWholeLine(change, decided.line.lengthM));
  if (!isPainted) return warnings;
  const text =
    'Snow that is painted on parts of the way there is not known on another line: the way back is planned with the snow of the whole line, except where a stretch is set for it.';
  return [...warnings, warn('way-back-snow', 2, text)];
}

/** Stretches that are set for a way back that nobody plans. */
function paintedForNothing({ project: { overrides, schedule } }: Planned): Warning[] {
  if (schedule.wayBack !== 'none' || !overrides.some(({ way }) => way === 'back')) return [];
  return [
    warn('way-back-painted', 1, 'Stretches are set for the way back only, and no way back is planned.'),
  ];
}
