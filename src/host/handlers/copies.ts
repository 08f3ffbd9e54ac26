import { fieldsOf, framesOfFields } from '../../time/fields.ts';
import { hostTroubles } from '../../words/hostTroubles.ts';
import { copyRun, dropCopyJob, queueCopy } from '../copyQueue.ts';
import { clearCopies, copiesAbout as about, removeCopy } from '../copyStore.ts';
import type { CallHandler, JobHandler } from '../desk.ts';
import { trouble } from '../troubles.ts';
import { known } from './clips.ts';

/** A working copy that the coach asked for, whatever the clip needs. */
export const clipWorkingCopy: JobHandler<'clip.workingCopy'> = (desk, { clipId }) => {
  const clip = known(desk, clipId);
  desk.library.clips.setCopyWish(clipId, 'asked');
  desk.hub.libraryChanged();
  return copyRun(desk, clip);
};

export const clipOriginal: CallHandler<'clip.original'> = async (desk, { clipId }) => {
  const clip = known(desk, clipId);
  if (clip.facts.decodable !== true) throw trouble('conflict', hostTroubles.onlyByCopy(clip.name));
  if (desk.clips.original(clip) === null) {
    throw trouble('notFound', hostTroubles.clipFileMissing(clip.name, clip.path));
  }
  dropCopyJob(desk, clipId);
  await removeCopy(desk, clip, 'declined');
  return desk.clips.summary(known(desk, clipId));
};

export const clipFields: CallHandler<'clip.fields'> = async (desk, { clipId, fields }) => {
  const { clips } = desk.library;
  const path = desk.clips.original(known(desk, clipId));
  const { name, path: seen } = known(desk, clipId);
  if (path === null) throw trouble('notFound', hostTroubles.clipFileMissing(name, seen));
  const { interlaced } = await desk.footage.probe(path, new AbortController().signal);
  const clip = known(desk, clipId);
  if (clip.fields === fields) return desk.clips.summary(clip);
  if (fields && !interlaced) throw trouble('badInput', hostTroubles.notInterlaced(name));
  if (clips.everMarked(clipId)) throw trouble('conflict', hostTroubles.markedAlready(name));
  dropCopyJob(desk, clipId);
  const table = clips.frames(clipId);
  if (desk.clips.copy(clip) !== null) await removeCopy(desk, clip, 'whenOpened');
  clips.setFields(clipId, fields, fields ? fieldsOf(table) : framesOfFields(table));
  clips.setCopyWish(clipId, null);
  const now = known(desk, clipId);
  await desk.clips.lookAt(now);
  desk.hub.libraryChanged();
  queueCopy(desk, now);
  return desk.clips.summary(now);
};

export const copiesAbout: CallHandler<'copies.about'> = (desk) => about(desk);

export const copiesClear: CallHandler<'copies.clear'> = async (desk) => {
  await clearCopies(desk);
  return about(desk);
};
