export { FINGERPRINT_BYTES, fingerprintOf } from './fingerprint'
export { HEADER_BYTES, isWhole, MAX_PIXELS, MAX_SIDE_PX, readHeader } from './header'
export type { PictureFormat, PictureHeader } from './header'
