import type { CallHandler } from '../desk.ts';

export const libraryAbout: CallHandler<'library.about'> = async (desk) => ({
  folder: desk.library.layout.folder,
  version: desk.about.version,
  demo: desk.about.demo,
  fresh: desk.about.fresh,
  ffmpeg: await desk.footage.about(),
  shell: desk.about.shell,
});
