import { z } from 'zod';
import type { FileSource } from '../../../src/host/contract/calls.ts';
import { HostTrouble } from '../../../src/host/contract/link.ts';
import type { OnHandedOver, StopSignal } from '../../../src/host/contract/shell.ts';
import { keyHeader } from '../../../src/host/contract/loopback.ts';
import { Trouble } from '../../../src/host/contract/shapes.ts';
import { shellWords } from '../../../src/words/shells.ts';

const Begun = z.object({ uploadId: z.string() });
const Refused = z.object({ trouble: Trouble });

/**
 * Sends a file to the loopback server as one stream of bytes.
 * Rejects with HostTrouble: what the host said, or that sending failed or was stopped.
 */
export async function sendFile(
  file: File,
  key: string,
  onProgress?: OnHandedOver,
  signal?: StopSignal,
): Promise<FileSource> {
  const failed = new HostTrouble({ code: 'unreadable', message: shellWords.sendFailed(file.name) });
  const answer = await fetch('/uploads', {
    method: 'POST',
    headers: { 'content-type': 'application/json', [keyHeader]: key },
    body: JSON.stringify({ name: file.name, bytes: file.size }),
  }).catch(() => {
    throw failed;
  });
  const told: unknown = await answer.json().catch(() => null);
  if (!answer.ok) throw refusal(told) ?? failed;
  const begun = Begun.safeParse(told);
  if (!begun.success) throw failed;
  await stream({ file, key, uploadId: begun.data.uploadId, failed, onProgress, signal });
  return { uploadId: begun.data.uploadId };
}

/** XMLHttpRequest, since `fetch` does not tell how much of a body has gone out. */
function stream(parts: {
  file: File;
  key: string;
  uploadId: string;
  failed: HostTrouble;
  onProgress: OnHandedOver | undefined;
  signal: StopSignal | undefined;
}): Promise<void> {
  const { file, key, uploadId, failed, onProgress, signal } = parts;
  return new Promise((resolve, reject) => {
    const request = new XMLHttpRequest();
    const stop = (): void => {
      request.abort();
    };
    const settle = (error?: HostTrouble): void => {
      signal?.removeEventListener('abort', stop);
      if (error) reject(error);
      else resolve();
    };
    request.upload.addEventListener('progress', (event) => {
      onProgress?.(event.loaded, file.size);
    });
    request.addEventListener('load', () => {
      if (request.status === 204) settle();
      else settle(refusal(json(request.responseText)) ?? failed);
    });
    request.addEventListener('error', () => {
      settle(failed);
    });
    request.addEventListener('abort', () => {
      settle(new HostTrouble({ code: 'cancelled', message: shellWords.sendStopped(file.name) }));
    });
    request.open('POST', `/uploads/${encodeURIComponent(uploadId)}`);
    request.setRequestHeader('content-type', 'application/octet-stream');
    request.setRequestHeader(keyHeader, key);
    request.send(file);
    if (signal?.aborted) stop();
    else signal?.addEventListener('abort', stop);
  });
}

function refusal(answer: unknown): HostTrouble | null {
  const read = Refused.safeParse(answer);
  return read.success ? new HostTrouble(read.data.trouble) : null;
}

function json(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
