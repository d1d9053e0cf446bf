import type { Note } from '../core/domain/problem';
import { safeFileName } from '../core/files/file-name';
import { profilePng } from './profile-png';
import { saveKinds, type SaveKind } from './save-kinds';
import { saveFile } from './save-file';
import type { Session } from './session.svelte';

/** Writes one kind of file from the present plan and offers it. */
export async function saveAs(
  kind: SaveKind,
  session: Session,
  mapPicture: () => Promise<string> | null,
): Promise<void> {
  const { project, figures, engines } = session;
  const offer = saveKinds.find((each) => each.kind === kind);
  if (!project || !offer) return;
  const name = safeFileName(project.name, offer.ending);
  try {
    if (kind === 'map-picture') {
      const picture = await mapPicture();
      if (picture) session.voice.saidFile(saveFile(name, bytesOf(picture), offer.type));
      return;
    }
    if (kind === 'profile-picture') {
      const { plan, units } = session;
      if (plan)
        session.voice.saidFile(saveFile(name, await profilePng(plan, project.name, units), offer.type));
      return;
    }
    const notes: Note[] = session.terrain.flatMap((terrain) => terrain.notes);
    const text =
      kind === 'project'
        ? await engines.ground.ask('writeProject', project)
        : await session.withWholePlan(`Writing ${name}`, (of, options) =>
            engines.plan.ask('writePlan', { project: of, figures, notes, format: kind }, options),
          );
    if (text === null) return;
    session.voice.saidFile(saveFile(name, text, offer.type));
    if (kind === 'project') session.saving.isInFile();
  } catch (reason) {
    session.voice.trouble(reason, name);
  }
}

/** The bytes of a base64 data URL. */
const bytesOf = (dataUrl: string): Uint8Array<ArrayBuffer> =>
  Uint8Array.from(atob(dataUrl.slice(dataUrl.indexOf(',') + 1)), (character) => character.charCodeAt(0));
