import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright';

/** The rules of WCAG 2.0 to 2.2, A and AA, and axe-core's best practices. */
export const wcag = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] as const;

/**
 * What axe-core finds wrong on a page: rule and place. `within` narrows it to a part; without `tags` the rules are
 * those that axe-core has switched on.
 *
 * It is run in the page itself ("legacy" mode, which only leaves out frames of other origins, and there are none)
 * and tells in full only what is wrong: to carry every passing element to a second page takes as long as the rules.
 */
export async function violations(
  page: Page,
  { within, tags }: { readonly within?: string; readonly tags?: readonly string[] } = {},
): Promise<string[]> {
  const builder = new AxeBuilder({ page }).options({ resultTypes: ['violations'] }).setLegacyMode();
  if (within !== undefined) builder.include(within);
  if (tags !== undefined) builder.withTags([...tags]);
  const { violations: found } = await builder.analyze();
  return found.flatMap(({ id, nodes }) => nodes.map((node) => `${id}: ${node.html.slice(0, 160)}`));
}
