/**
 * `npm run study:photos`: a rule or a board of known size on real photos of two webcams, and on the same photos as a
 * wide lens shows them (where they come from stands in tests/reference/camera), read by a new hand each time. Prints
 * its table, writes it to docs/evidence/camera.md, and fails where fewer than 93 % of the intervals hold the truth.
 */
import { NEEDED, tryBoards, WAYS } from '../reference/camera/boardTrials'
import figures from '../reference/camera/photo-figures.json'
import { HAND_PX } from '../reference/camera/boards'
import { writeEvidence } from './evidence'

const TIMES = 40
const SCALE = { plane: 'board of four points', length: 'rule' } as const
const LENS = { edge: 'measured on an edge', kind: 'as usual for its kind', notAsked: 'nobody said' } as const
const percent = (share: number): string => `${(100 * share).toFixed(1)} %`

const tried = WAYS.map(([photos, way]) => ({ photos, way, ...tryBoards(photos, way, TIMES) }))
const rows = tried.map(({ photos, way, count, share, leastShare, rmsErrorMm, medianUMm }) => [
  photos, SCALE[way.scale], LENS[way.lens], way.inPlane ? 'yes' : 'no', count, percent(share), percent(leastShare),
  rmsErrorMm.toFixed(2), medianUMm.toFixed(2),
].join(' | '))
const count = tried.reduce((sum, each) => sum + each.count, 0)
const text = `${count} heights of 25 to 200 mm on ${figures.webcam.length} webcam photos of 640 x 480 and ${figures.wide.length} wide ones of
1280 x 720; each mark set by a hand of ${HAND_PX} px. Trials on one photo share its lens and its tilt, so beside the share of all
stands that of the photo that is covered least.

| photos | scale | lens | in the plane | trials | in the 95 % interval | least covered photo | rms error, mm | median u, mm |
|---|---|---|---|---|---|---|---|---|
${rows.map((row) => `| ${row} |`).join('\n')}`
console.log(text)
writeEvidence('photos', 'npm run study:photos', text)
const short = tried.filter(({ share }) => share < NEEDED)
console.log(short.length === 0 ? `All ${tried.length} ways: ${percent(NEEDED)} or more.` : `${short.length} ways fall short.`)
process.exit(short.length > 0 ? 1 : 0)
