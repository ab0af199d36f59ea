/** The faces a report is written in, as data to stand in the document. */
import type { ReportFace } from '@core/report'
import { TEXT_FACE } from './faces'

let faces: Promise<ReportFace[]> | null = null

/** Read once. @throws where a file of the program's own can't be read */
export function reportFaces(): Promise<ReportFace[]> {
  faces ??= Promise.all(TEXT_FACE.map(async ({ family, url, range, weight }) => {
    const answer = await fetch(url)
    if (!answer.ok) throw new Error(`The face ${family} can’t be read: ${answer.status}`)
    return { family, range, weight, base64: base64(new Uint8Array(await answer.arrayBuffer())) }
  }))
  faces.catch(() => { faces = null })
  return faces
}

function base64(bytes: Uint8Array): string {
  let text = ''
  for (let at = 0; at < bytes.length; at += 8192) text += String.fromCharCode(...bytes.subarray(at, at + 8192))
  return btoa(text)
}
