import { isAsFilmed, transferOf } from './light.ts';
import styles from './PictureLight.module.css';
import { useLight } from './useLight.ts';

const channels = ['feFuncR', 'feFuncG', 'feFuncB'] as const;

/** Name of the filter that lights every picture of the clip; none where it is as filmed. */
const filterId = 'picture-light';

/** What lights the pictures on the screen: a filter, which alters nothing but what is seen. */
export function PictureLight() {
  const light = useLight();
  if (isAsFilmed(light)) return null;
  const { amplitude, exponent, slope, intercept } = transferOf(light);
  return (
    <svg className={styles['light']} aria-hidden data-light>
      <filter id={filterId} x="0" y="0" width="1" height="1" colorInterpolationFilters="sRGB">
        <feComponentTransfer>
          {channels.map((Channel) => (
            <Channel key={Channel} type="gamma" amplitude={amplitude} exponent={exponent} offset={0} />
          ))}
        </feComponentTransfer>
        <feComponentTransfer>
          {channels.map((Channel) => (
            <Channel key={Channel} type="linear" slope={slope} intercept={intercept} />
          ))}
        </feComponentTransfer>
      </filter>
    </svg>
  );
}

/** For the style of a picture of the clip: lit, or left as it is. */
export function useLit(): { readonly filter: string } | undefined {
  return isAsFilmed(useLight()) ? undefined : { filter: `url(#${filterId})` };
}
