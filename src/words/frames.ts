/** What the frame window says when it cannot show a frame. Each says what to do next. */
export const frameWords = {
  cannotDecode: 'This video cannot be shown frame by frame as it is. A working copy makes it possible.',
  misaligned:
    'The frames inside this video do not agree with its list of frame times. A working copy makes it possible to step through it.',
  unreachable:
    'The video file cannot be read at the moment. Check that it is still where it was, then open the clip again.',
  damaged: (index: number): string =>
    `Frame ${index + 1} of this video is damaged and cannot be shown. Choose a frame near it, or make a working copy.`,
  cannotPlay: 'This video cannot be played as it is. A working copy makes it possible.',
  unsure: (index: number): string =>
    `Frame ${index + 1} could not be shown for certain, so the picture was left as it was. Try once more, or make a working copy.`,
  closed: 'The clip was closed before the picture was ready.',
} as const;
