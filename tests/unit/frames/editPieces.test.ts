import { open } from 'node:fs/promises';
import { expect, test } from 'vitest';
import { clip, type ClipKind } from '../../../scripts/clips/make.ts';
import { editPieces } from '../../../src/frames/editPieces.ts';
import { probe } from '../../../src/footage/probe.ts';

async function piecesOf(kind: ClipKind): Promise<number | null> {
  const made = await clip(kind);
  const file = await open(made.path);
  try {
    return await editPieces(async (from, length) => {
      const { bytesRead, buffer } = await file.read(Buffer.alloc(length), 0, length, from);
      return buffer.subarray(0, bytesRead);
    });
  } finally {
    await file.close();
  }
}

test('counts the pieces of an edit list as the host does', async () => {
  for (const kind of ['h264', 'editList', 'late', 'rotated180', 'editListPieces', 'av1'] as const) {
    const facts = await probe((await clip(kind)).path);
    expect(await piecesOf(kind), kind).toBe(facts.editPieces ?? 1);
  }
  expect(await piecesOf('editListPieces')).toBe(2);
});

test('says nothing of files that are cut, absurd or of another kind', async () => {
  const from = (bytes: number[]) =>
    editPieces(async (at, length) => Uint8Array.from(bytes).subarray(at, at + length));
  const box = (type: string, ...body: number[]): number[] => [
    0,
    0,
    0,
    body.length + 8,
    ...[...type].map((c) => c.charCodeAt(0)),
    ...body,
  ];
  expect(await from([])).toBeNull();
  expect(await from([0, 0, 0, 3, 109, 111, 111, 118])).toBeNull();
  expect(await from([0, 0, 0, 0, ...box('mdat').slice(4)])).toBeNull();
  expect(await from([...box('free', 1, 2), 0, 0, 1, 0, 109, 111, 111, 118])).toBeNull();
  expect(await from([0, 0, 0, 1, 109, 111, 111, 118, 255, 255, 255, 255, 255, 255, 255, 255])).toBeNull();
  expect(await from([...box('free', 1, 2), ...box('moov', ...box('trak'))])).toBe(1);
  expect(await piecesOf('mkv')).toBeNull();
});
