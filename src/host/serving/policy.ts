/** Headers by name. */
export type Headers = Readonly<Record<string, string>>;

const everywhere: Headers = {
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'cross-origin-resource-policy': 'same-origin',
  'x-frame-options': 'DENY',
};

/** Every feature a page may ask for and this one never does (Permissions Policy, W3C). */
const noFeatures = [
  'accelerometer',
  'autoplay=(self)',
  'bluetooth',
  'camera',
  'display-capture',
  'fullscreen=(self)',
  'geolocation',
  'gyroscope',
  'hid',
  'idle-detection',
  'local-fonts',
  'magnetometer',
  'microphone',
  'midi',
  'payment',
  'picture-in-picture',
  'publickey-credentials-get',
  'screen-wake-lock',
  'serial',
  'usb',
  'xr-spatial-tracking',
]
  .map((feature) => (feature.includes('=') ? feature : `${feature}=()`))
  .join(', ');

/**
 * Headers of the window's own files. Nothing is taken from anywhere but the place that served the window, and
 * the window is cut off from other pages (which also gives it shared memory between workers).
 * @param wire the web socket's address where there is one, since not every browser counts it as 'self'
 */
export function windowHeaders(wire?: string): Headers {
  return {
    ...everywhere,
    'content-security-policy': [
      "default-src 'none'",
      "script-src 'self'",
      "worker-src 'self'",
      "style-src 'self'",
      "img-src 'self' blob: data:",
      "media-src 'self' blob:",
      `connect-src 'self'${wire ? ` ${wire}` : ''}`,
      "font-src 'self'",
      "frame-ancestors 'none'",
      "base-uri 'none'",
      "form-action 'none'",
    ].join('; '),
    'cross-origin-opener-policy': 'same-origin',
    'cross-origin-embedder-policy': 'require-corp',
    'permissions-policy': noFeatures,
  };
}

/**
 * Headers of a written report: one self-contained file with its own styles and pictures, in an origin of its own,
 * where no script runs. It carries no opener policy, since browsers refuse a sandboxed page that has one.
 */
export const reportHeaders: Headers = {
  ...everywhere,
  'content-security-policy': [
    "default-src 'none'",
    "style-src 'unsafe-inline'",
    'img-src data:',
    "frame-ancestors 'none'",
    "base-uri 'none'",
    "form-action 'none'",
    'sandbox',
  ].join('; '),
  'permissions-policy': noFeatures,
  'cache-control': 'no-store',
};

/** Headers of footage and pictures. Should one be opened as a page, nothing in it runs. */
export const mediaHeaders: Headers = {
  ...everywhere,
  'content-security-policy': "default-src 'none'; frame-ancestors 'none'; sandbox",
  'cross-origin-embedder-policy': 'require-corp',
  'cache-control': 'private, no-cache',
};

/** Headers of every other answer: short texts and JSON. */
export const plainHeaders: Headers = {
  ...everywhere,
  'content-security-policy':
    "default-src 'none'; frame-ancestors 'none'; base-uri 'none'; form-action 'none'",
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-embedder-policy': 'require-corp',
  'cache-control': 'no-store',
};
