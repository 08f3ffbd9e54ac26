import { ClipWorker, type Post } from './clipWorker.ts';
import type { FromWorker, ToWorker } from './messages.ts';
import { FrameTrouble } from './trouble.ts';

/** The worker's end of the wire: one clip a worker. */
const scope = self as unknown as {
  postMessage(message: FromWorker, transfer: Transferable[]): void;
  onmessage: ((event: MessageEvent<ToWorker>) => void) | null;
};
const post: Post = (message, transfer = []) => scope.postMessage(message, transfer);

let clip: Promise<ClipWorker | null> | null = null;

scope.onmessage = ({ data }) => {
  if (data.type === 'open') {
    clip = ClipWorker.open(data, post).then(
      (opened) => {
        post({ type: 'opened', offset: opened.offset, keys: opened.keys });
        return opened;
      },
      (error: unknown) => {
        const trouble =
          error instanceof FrameTrouble ? error : new FrameTrouble('cannotDecode', String(error));
        post({ type: 'refused', code: trouble.code, detail: trouble.detail });
        return null;
      },
    );
    return;
  }
  void clip?.then((opened) => {
    if (data.type === 'show') opened?.show(data.index);
    else if (data.type === 'travel') opened?.travel(data.n, data.by, data.target);
    else if (data.type === 'picture') opened?.picture(data.n, data.index, data.maxWidth);
    else if (opened) opened.close();
    else post({ type: 'closed', open: 0 });
  });
};
