/**
 * Decodes one HEIF photo (HEVC inside) by libheif, in its build as plain JavaScript: it needs neither
 * WebAssembly nor eval, so the page's policy stays as strict as it is.
 */
import libheif from 'libheif-js/libheif/libheif.js'

/** The part of the library that is used; its own types leave it out. */
interface Heif {
  readonly HeifDecoder: new () => { decode(file: ArrayBuffer): HeifImage[] }
}
interface HeifImage {
  get_width(): number
  get_height(): number
  /** Fills the pixels, then tells them, or null where it failed. */
  display(into: ImageData, done: (told: ImageData | null) => void): void
  free(): void
}

/** The picture as a PNG, without any loss; null where the file can't be decoded. */
export type HeifTell = { readonly picture: Blob; readonly widthPx: number; readonly heightPx: number } | null

const tell = (message: HeifTell): void => self.postMessage(message)

self.onmessage = (event: MessageEvent<Blob>) => {
  decode(event.data).then(tell, () => tell(null))
}

async function decode(file: Blob): Promise<HeifTell> {
  const { HeifDecoder } = (libheif as unknown as () => Heif)()
  const [image] = new HeifDecoder().decode(await file.arrayBuffer())
  if (!image) return null
  const [width, height] = [image.get_width(), image.get_height()]
  const pixels = new ImageData(width, height)
  const shown = await new Promise<boolean>((resolve) => { image.display(pixels, (told) => resolve(told !== null)) })
  image.free()
  if (!shown) return null
  const canvas = new OffscreenCanvas(width, height)
  canvas.getContext('2d')?.putImageData(pixels, 0, 0)
  return { picture: await canvas.convertToBlob({ type: 'image/png' }), widthPx: width, heightPx: height }
}
