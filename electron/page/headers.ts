/** What every answer with a page or a file of ours says to the browser. Shared by both transports. */

/**
 * Nothing but our own files: no inline scripts or styles, no other origin. Pictures and clips of the
 * builder are blobs and data addresses of the page itself.
 */
const POLICY: Record<string, string> = {
  'default-src': "'none'",
  'script-src': "'self'",
  'style-src': "'self'",
  'img-src': "'self' data: blob:",
  'media-src': "'self' blob:",
  'font-src': "'self'",
  'connect-src': "'self'",
  'worker-src': "'self'",
  'base-uri': "'none'",
  'form-action': "'none'",
  'frame-ancestors': "'none'",
}

export const CONTENT_SECURITY_POLICY = Object.entries(POLICY).map(([key, value]) => `${key} ${value}`).join('; ')

/** Headers of every answer. The live bench may ask for the camera; the browser still asks the builder. */
export const PAGE_HEADERS: Readonly<Record<string, string>> = {
  'content-security-policy': CONTENT_SECURITY_POLICY,
  'x-content-type-options': 'nosniff',
  'x-frame-options': 'DENY',
  'referrer-policy': 'no-referrer',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
  'permissions-policy': 'camera=(self), microphone=(), geolocation=(), usb=(), serial=(), hid=(), payment=()',
  'cache-control': 'no-store',
}
