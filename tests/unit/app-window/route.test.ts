import { describe, expect, it } from 'vitest';
import { addressOf, createRoute, readRoute } from '../../../app/window/stores/route.ts';

describe('the address of a screen', () => {
  it('leads there and back', () => {
    for (const route of [
      { screen: 'library' },
      { screen: 'settings' },
      { screen: 'start' },
      { screen: 'review', reviewId: 'a b/ü%' },
      { screen: 'course', reviewId: '0' },
      { screen: 'report', reviewId: 'x' },
      { screen: 'compare', reviewIds: [] },
      { screen: 'compare', reviewIds: ['a b/ü%', '0'] },
    ] as const) {
      expect(readRoute(addressOf(route))).toEqual(route);
    }
  });

  it('is nowhere where no screen answers to it, and never throws', () => {
    expect(readRoute('')).toEqual({ screen: 'library' });
    expect(readRoute('#/')).toEqual({ screen: 'library' });
    for (const hash of [
      '#/review',
      '#/review/',
      '#/review/%E0%A4%A',
      '#/library/1',
      '#/else',
      '#/review/a/b',
      '#/compare/',
      '#/compare/a//b',
      '#/compare/%E0%A4%A/b',
      `#/compare${'/x'.repeat(13)}`,
    ]) {
      expect(readRoute(hash)).toEqual({ screen: 'nowhere' });
    }
  });

  it('is followed and set', () => {
    const on: (() => void)[] = [];
    const bar = {
      location: {
        hash: '#/library',
        replace(address: string) {
          this.hash = address;
        },
      },
      addEventListener: (_: string, f: () => void) => void on.push(f),
    };
    const store = createRoute(bar);
    store.go({ screen: 'report', reviewId: '7' });
    expect(bar.location.hash).toBe('#/report/7');
    bar.location.hash = '#/settings';
    on.forEach((f) => {
      f();
    });
    expect(store.getState().route).toEqual({ screen: 'settings' });
    store.goInstead({ screen: 'course', reviewId: '8' });
    expect(bar.location.hash).toBe('#/course/8');
    expect(store.getState().route).toEqual({ screen: 'course', reviewId: '8' });
  });
});
