/** What kinds of camera usually are: how bent, how well centred, how wide. Asked, since pictures do not tell. */
import type { CameraKind, Picture } from '@core/schema'

export interface UsualCamera {
  /** Radial terms, see `Lens`, with standard uncertainties wide enough for cameras of the kind. */
  readonly k1: { readonly value: number; readonly u: number }
  readonly k2: { readonly value: number; readonly u: number }
  /** How far the lens' middle may lie off the picture's, as a share of the longer side (standard uncertainty). */
  readonly offShareU: number
  /** Focal length over the picture's longer side. */
  readonly focalShare: { readonly value: number; readonly u: number }
}

/**
 * Phones straighten what their main camera sees; the wide one less, and not in every film. A webcam
 * has 0.1 to 0.25 of the first term and an action camera 0.4 to 1 (found on boards of known shape; the rest common
 * practice, no source). Focal lengths: 24 to 28 mm and 12 to 14 mm on the 36 mm of the 35 mm format;
 * webcams see 55 to 90 degrees across the diagonal.
 */
const USUAL: Readonly<Record<CameraKind, UsualCamera>> = {
  phoneMain: {
    k1: { value: 0, u: 0.015 }, k2: { value: 0, u: 0.015 }, offShareU: 0.01, focalShare: { value: 0.75, u: 0.08 },
  },
  phoneWide: {
    k1: { value: 0.05, u: 0.1 }, k2: { value: 0, u: 0.1 }, offShareU: 0.015, focalShare: { value: 0.38, u: 0.06 },
  },
  webcam: {
    k1: { value: 0.1, u: 0.1 }, k2: { value: 0.05, u: 0.1 }, offShareU: 0.03, focalShare: { value: 0.8, u: 0.15 },
  },
  action: {
    k1: { value: 0.6, u: 0.3 }, k2: { value: 0.3, u: 0.4 }, offShareU: 0.02, focalShare: { value: 0.45, u: 0.1 },
  },
  lensCamera: {
    k1: { value: 0.02, u: 0.04 }, k2: { value: 0, u: 0.05 }, offShareU: 0.01, focalShare: { value: 1, u: 0.4 },
  },
}

/** Nobody said: it may be any of them. */
const UNKNOWN: UsualCamera = {
  k1: { value: 0.25, u: 0.35 }, k2: { value: 0.1, u: 0.3 }, offShareU: 0.02, focalShare: { value: 0.65, u: 0.2 },
}

export const usualCamera = (kind: CameraKind | undefined): UsualCamera => (kind ? USUAL[kind] : UNKNOWN)

/** Below this a phone's focal length (35 mm format) is that of its wide camera, mm (common practice, no source). */
const WIDE_BELOW_MM = 19

/**
 * What the file's own words make likely, for the question's first answer: a phone's two cameras can
 * be told by their focal length. Null where the file says too little.
 */
export function likelyKind(focal35Mm: number | null): CameraKind | null {
  if (focal35Mm === null) return null
  return focal35Mm < WIDE_BELOW_MM ? 'phoneWide' : 'phoneMain'
}

/** Diagonal of the 35 mm format, mm (ISO 1007: 24 mm by 36 mm). */
const DIAGONAL_35_MM = Math.hypot(24, 36)

/** How exactly a file's focal length is meant: whole mm, and the crop of films (common practice, no source). */
const SAID_FOCAL_U = 0.06

/** Focal length in px with its standard uncertainty: as the file says, else as usual for the kind of camera. */
export function focalPx({ widthPx, heightPx, cameraKind, camera }: Picture): { value: number; u: number } {
  if (camera?.focal35Mm) {
    const value = (camera.focal35Mm * Math.hypot(widthPx, heightPx)) / DIAGONAL_35_MM
    return { value, u: SAID_FOCAL_U * value }
  }
  const { value, u } = usualCamera(cameraKind).focalShare
  const longer = Math.max(widthPx, heightPx)
  return { value: value * longer, u: u * longer }
}
