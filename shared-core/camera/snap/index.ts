export { MIN_STICKER_RADIUS_PX, snapToSticker } from './snap'
export type { Snap, SnapRefusal } from './snap'
