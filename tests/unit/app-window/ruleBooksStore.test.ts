import { describe, expect, test, vi } from 'vitest';
import { createNotices } from '../../../app/window/stores/notices.ts';
import { createRuleBooks, ruleBookIn } from '../../../app/window/stores/ruleBooks.ts';
import { link } from '../../../src/host/contract/link.ts';
import { fci2023 } from '../../../src/course/rules/fci2023.ts';
import { book, ours } from '../course/rules/books.ts';
import { memoryHost } from './memoryHost.ts';

const setUp = () => {
  const host = memoryHost();
  const line = link(host.wire);
  const notices = createNotices();
  const store = createRuleBooks(line, notices);
  const of = (id: string) => ruleBookIn(store.getState(), id);
  const reads = () => host.asked.filter((a) => a.name === 'ruleBook.read').length;
  return { host, notices, store, of, reads };
};

describe('the rule books of a window', () => {
  test('the worked one is listed, and read when it is wanted, once', async () => {
    const { store, of, reads } = setUp();
    await vi.waitFor(() => expect(store.getState().known).toBe(true));
    expect(of('fci-2023').summary).toMatchObject({ worked: true });
    expect(of('fci-2023').book).toBeUndefined();
    store.want('fci-2023');
    store.want('fci-2023');
    await vi.waitFor(() => expect(of('fci-2023').book).toEqual(fci2023));
    store.want('fci-2023');
    expect(reads()).toBe(1);
  });

  test('a book that is replaced is read anew, and the older one is not shown in its place', async () => {
    const { host, store, of } = setUp();
    host.ruleBooks.put(book());
    await vi.waitFor(() => expect(of('ours').summary).toBeDefined());
    store.want('ours');
    await vi.waitFor(() => expect(of('ours').book).toEqual(book()));
    const next = book({ course: { obstacles: { value: { most: 9 }, source: ours } } });
    host.ruleBooks.put(next);
    await vi.waitFor(() => expect(of('ours').summary?.entries).toBe(1));
    expect(of('ours').book).toBeUndefined();
    store.want('ours');
    await vi.waitFor(() => expect(of('ours').book).toEqual(next));
  });

  test('what is not in the library is not asked for; what cannot be read is told', async () => {
    const { host, notices, store, of, reads } = setUp();
    await vi.waitFor(() => expect(store.getState().known).toBe(true));
    store.want('nobody');
    expect(of('nobody')).toEqual({ summary: undefined, book: undefined });
    expect(reads()).toBe(0);
    host.refuse('ruleBook.read', { code: 'damaged', message: 'What is stored of it is damaged.' });
    store.want('fci-2023');
    await vi.waitFor(() => expect(notices.getState().list).toHaveLength(1));
    expect(notices.getState().list[0]?.text).toContain('damaged');
    store.want('fci-2023');
    await vi.waitFor(() => expect(of('fci-2023').book).toEqual(fci2023));
  });
});
