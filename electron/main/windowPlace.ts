/** Where the window stood last, and where it may stand now. */
import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { app, screen } from 'electron'
import type { BrowserWindow, Rectangle } from 'electron'
import { z } from 'zod'

const pixels = z.number().int().min(-100_000).max(100_000)
const place = z.object({
  x: pixels, y: pixels, width: pixels.positive(), height: pixels.positive(), maximized: z.boolean(),
})
type Place = z.infer<typeof place>

/** Size of a window that never stood anywhere, px. */
const USUAL = { width: 1280, height: 860 }

const file = (): string => join(app.getPath('userData'), 'window.json')

/** The place for a new window: the last one, brought inside a display that is there now. */
export function placeNow(): Place {
  const kept = keptPlace()
  if (kept === null) return { ...inside(USUAL, screen.getPrimaryDisplay().workArea), maximized: false }
  return { ...inside(kept, screen.getDisplayMatching(kept).workArea), maximized: kept.maximized }
}

/** Keeps the window's place for the next start; no harm where it can't be kept. */
export function keepPlace(window: BrowserWindow): void {
  const now: Place = { ...window.getNormalBounds(), maximized: window.isMaximized() }
  try {
    writeFileSync(file(), JSON.stringify(now))
  } catch {
    // The next window stands at the usual place.
  }
}

function keptPlace(): Place | null {
  try {
    return place.parse(JSON.parse(readFileSync(file(), 'utf8')))
  } catch {
    return null
  }
}

/** A rectangle moved, and where need be shrunk, into an area; one without a corner goes to its middle. */
function inside({ width, height, ...corner }: Partial<Rectangle> & typeof USUAL, area: Rectangle): Rectangle {
  const size = { width: Math.min(width, area.width), height: Math.min(height, area.height) }
  const room = { x: area.width - size.width, y: area.height - size.height }
  return {
    x: clamp(corner.x ?? area.x + Math.round(room.x / 2), area.x, area.x + room.x),
    y: clamp(corner.y ?? area.y + Math.round(room.y / 2), area.y, area.y + room.y),
    ...size,
  }
}

const clamp = (value: number, low: number, high: number): number => Math.min(Math.max(value, low), high)
