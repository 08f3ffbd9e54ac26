import type { MapPicture } from '../../../../src/course/course.ts';
import type { NearPicture } from '../../../../src/course/underlay.ts';
import styles from './LayPicture.module.css';

interface LoupeProps {
  readonly url: string;
  readonly at: NearPicture;
  readonly picture: MapPicture;
}

/** What lies under the pointer, larger, in the corner that the pointer is not in. */
export function Loupe({ url, at, picture }: LoupeProps) {
  const share = 14;
  const style = {
    '--url': `url("${url}")`,
    '--size': `${share * 100}%`,
    '--tall': `${(share * 100 * picture.height) / picture.width}%`,
    // Percentages of a background place its own point over the same point of the box.
    '--x': `${place(at.x, share) * 100}%`,
    '--y': `${place(at.y, (share * picture.height) / picture.width) * 100}%`,
  } as React.CSSProperties;
  return (
    <div
      className={styles['loupe']}
      style={style}
      data-right={at.x < 0.5}
      data-low={at.y < 0.5}
      aria-hidden
    />
  );
}

/** The background position at which a point of the picture lies in the middle of a box `share` times smaller. */
const place = (v: number, share: number): number => (share === 1 ? 0.5 : (v * share - 0.5) / (share - 1));
