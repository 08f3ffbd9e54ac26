import { fileSize, plural } from './locale.ts';

const brought = 'mp4, mov, m4v, mkv, webm, avi, mts and ts files can be brought in';

/** What the footage room says when a file cannot be used: which file, what is wrong, what to do. */
export const footageWords = {
  notThere: (name: string) =>
    `“${name}” is not there. Check that it was not moved or renamed, then try again.`,
  folder: (name: string) => `“${name}” is a folder. Choose the video file inside it.`,
  notAFile: (name: string) => `“${name}” is not an ordinary file. Copy the video to a file of its own first.`,
  badName: 'A file name with an empty character in it cannot be opened. Rename the file, then try again.',
  unreadable: (name: string, reason: string) =>
    `“${name}” cannot be read (${reason}). Check that you may open it and that its disk is connected.`,
  empty: (name: string) => `“${name}” is empty. Copy it again from the camera or the phone.`,
  notAVideo: (name: string) =>
    `“${name}” is not a video that Walkback can read, whatever its name says: ${brought}.`,
  unfinished: (name: string) =>
    `“${name}” is incomplete: its table of pictures is missing, as when a recording or a copy was cut off. ` +
    'Copy it again from the camera or the phone.',
  cutShort: (name: string, missing: number) =>
    `“${name}” is cut short: ${fileSize(missing)} at its end are missing. ` +
    'Copy it again from the camera or the phone.',
  noPicture: (name: string) =>
    `“${name}” has no moving picture in it, only sound or a cover. Choose the video of the run.`,
  unknownCodec: (name: string, codec: string) =>
    `The pictures of “${name}” are stored in a way (${codec}) that the installed ffmpeg cannot read. ` +
    'Export the clip as H.264 first.',
  badSize: (name: string, width: number, height: number) =>
    `“${name}” says that its picture is ${width} by ${height}, which cannot be used. The file may be damaged.`,
  tooLong: (name: string, hours: number, most: number) =>
    `“${name}” says that it runs for ${plural(Math.round(hours), { one: '# hour', other: '# hours' })}; ` +
    `${most} hours are the most. Its header may be damaged: cut or export the clip anew.`,
  tooManyFrames: (name: string, most: number) =>
    `“${name}” has more than ${plural(most, { one: '# frame', other: '# frames' })}. Cut it into shorter clips first.`,
  nothingDecoded: (name: string, codec: string) =>
    `Not one picture of “${name}” can be read (${codec}). The file is damaged: copy it again from the camera.`,
  readingStopped: (name: string, reason: string) =>
    `Reading “${name}” broke off (${reason}). The file may be damaged: copy it again from the camera.`,
  stopped: (name: string) => `The work on “${name}” was stopped. Nothing was changed.`,
  changedUnderWay: (name: string) =>
    `“${name}” changed while it was read. Wait until it is copied, then try again.`,

  noSoundRead: (name: string, reason: string) =>
    `The sound of “${name}” could not be read (${reason}). Line the clips up by a moment that both show.`,

  noFfmpeg: (reason: string) =>
    'Walkback needs ffmpeg and ffprobe, version 5 or newer, or those that come with it. ' +
    `Neither could be started (${reason}). Run “npm install” in Walkback's folder, or install ffmpeg.`,
  noSpace: (name: string, folder: string) =>
    `There is no room for a working copy of “${name}” in ${folder}. Make room there, then try again.`,
  folderMissing: (folder: string) => `The folder ${folder} is not there or cannot be written to.`,
  copyFailed: (name: string, reason: string) =>
    `A working copy of “${name}” could not be made (${reason}). The original is unchanged.`,
  copyDiffers: (name: string, what: string) =>
    `A working copy of “${name}” was made, but ${what}, so it was thrown away: marks would not fit. ` +
    'Export the clip as H.264 with another program, then bring that file in.',
  copyCount: (original: number, copy: number) => `it had ${copy} frames instead of ${original}`,
  copyTime: (frame: number) => `frame ${frame + 1} stood at another time`,
  clipNoSpace: (folder: string) =>
    `There is no room for the clip in ${folder}. Make room there, then make the clip again.`,
  clipFailed: (name: string, reason: string) =>
    `The clip of “${name}” could not be made (${reason}). Nothing was left behind; the footage is unchanged.`,
  clipFrames: (asked: number, found: number) =>
    found === asked
      ? 'its frames came at other times than they have in the library'
      : `${asked} frames were to be shown, and the decoder gave ${found}`,
  programEnded: (signal: string) => `ffmpeg was ended from outside: ${signal}`,
  noSuchFrame: (name: string, frame: number, frames: number) =>
    `“${name}” has no frame ${frame + 1}: it has ${frames}.`,
  stillFailed: (name: string, frame: number, reason: string) =>
    `Frame ${frame + 1} of “${name}” could not be read (${reason}). Choose a frame near it.`,
  stillMissing: 'the decoder did not give it out',
} as const;
