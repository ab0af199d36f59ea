/** The picture in hand: its session, its file, what was followed in it, and what is being marked. */
import { heightOf, likelyKind, type Datum, type HeightResult } from '@core/camera'
import type { AirflowSession, Corner, Picture, PictureMark, SquatSession } from '@core/schema'
import { defineStore } from 'pinia'
import { computed, ref, shallowReactive, shallowRef, watch } from 'vue'
import { newId, now } from '../../stores/ids'
import { useProject } from '../../stores/project'
import type { ClipInfo, FollowResult } from '../../workers/camera.worker'
import { cornersOf, markIn, slotsOf, type Side, type Slot } from './slots'
import type { TakenFile } from './takeIn'

type Home = AirflowSession | SquatSession

/** What was followed in a clip, from the frame its marks were made in. */
export interface Film extends FollowResult { readonly startS: number }

/** Marks made with the magnifier this many times or more are averaged. */
const MOST_REPEATS = 100

export const useCamera = defineStore('camera', () => {
  const project = useProject()
  const sessionId = ref('')
  const pictureId = ref('')
  const side = ref<Side>('left')
  const datum = ref<Datum>('hubToChassis')
  const wantsEdge = ref(false)
  /** Media time of the frame shown; null for a still. */
  const frameS = ref<number | null>(null)
  const activeKey = ref('')
  /** Files as the builder chose them; they live as long as the window. */
  const files = shallowReactive(new Map<string, File>())
  /** What is shown in place of a file that the window can't show as it is, or not in its full size. */
  const stands = shallowReactive(new Map<string, Blob>())
  const clips = shallowReactive(new Map<string, ClipInfo>())
  const films = shallowReactive(new Map<string, Film>())
  const shown = shallowRef<HTMLImageElement | HTMLVideoElement | null>(null)

  const homes = computed<Home[]>(() => [...project.airflows, ...project.squats])
  const session = computed<Home | undefined>(() =>
    homes.value.find((each) => each.id === sessionId.value)
    ?? homes.value.find((each) => each.pictures.length > 0) ?? homes.value[0])
  const pictures = computed<readonly Picture[]>(() => session.value?.pictures ?? [])
  const picture = computed<Picture | undefined>(() =>
    pictures.value.find((each) => each.id === pictureId.value) ?? pictures.value[0])
  const file = computed(() => (picture.value ? files.get(picture.value.id) : undefined))
  const view = computed(() => (picture.value ? stands.get(picture.value.id) ?? file.value : undefined))
  const clip = computed(() => (picture.value ? clips.get(picture.value.id) : undefined))
  const film = computed(() => (picture.value ? films.get(picture.value.id) : undefined))
  const slots = computed<Slot[]>(() =>
    (picture.value ? slotsOf(picture.value, side.value, datum.value, wantsEdge.value) : []))
  const active = computed<Slot | undefined>(() => slots.value.find((each) => each.key === activeKey.value))
  const corners = computed(() => cornersOf(side.value))

  watch(() => picture.value?.id, () => {
    const own = picture.value
    frameS.value = own?.kind === 'clip' ? (own.marks.find((each) => each.frameS !== null)?.frameS ?? 0) : null
    const seen = own?.marks.find((each) => each.corner !== null)?.corner
    if (seen) side.value = seen.endsWith('Left') ? 'left' : 'right'
    wantsEdge.value = false
    activeKey.value = own ? firstOpen() : ''
  }, { immediate: true })

  // Another scale, datum or gates want other marks: what was active may be gone, or done while new ones are open.
  watch(slots, (now, before) => {
    const own = picture.value
    const held = now.find((each) => each.key === activeKey.value)
    const isDone = own && held && now.length > before.length && markIn(own, held, frameS.value)
    if (!held || isDone) activeKey.value = firstOpen() || (held?.key ?? '')
  })

  // With the scale its marks come first.
  watch(() => picture.value?.scale ?? null, (now, before) => {
    if (now && !before && !active.value?.role.startsWith('scale')) activeKey.value = firstOpen()
  })

  function firstOpen(): string {
    const own = picture.value
    return (own && slots.value.find((each) => !markIn(own, each, frameS.value))?.key) ?? ''
  }

  function editPicture(label: string, change: (draft: Picture) => void, id = picture.value?.id): void {
    const home = session.value
    if (!home || id === undefined) return
    project.changeSession(home.kind, home.id, label, (draft) => {
      const each = draft.pictures.find((one) => one.id === id)
      if (each) change(each)
    })
  }

  /** Adds a file to the session as a new picture; scale and set-up are taken over from the picture before it. */
  function addPicture(taken: TakenFile, label: string): void {
    const home = session.value
    if (!home) return
    const last = home.pictures.at(-1)
    const id = newId('picture')
    // The kind is asked; a phone's two cameras can be told by what the file says.
    const kind = taken.camera ? likelyKind(taken.camera.focal35Mm) : last?.cameraKind ?? null
    const made: Picture = {
      id, kind: taken.clip ? 'clip' : 'still', fileName: nameOf(taken.file), sizeBytes: taken.file.size,
      fingerprint: taken.fingerprint, addedAt: now(), widthPx: taken.widthPx, heightPx: taken.heightPx, thumbnail: null,
      scale: last?.scale ?? null,
      lensK1: null, exposureS: last?.exposureS ?? null, marks: [], windows: [], setupId: last?.setupId ?? newId('setup'),
      ...(kind ? { cameraKind: kind } : {}), ...(taken.camera ? { camera: taken.camera } : {}),
      ...(last?.view ? { view: last.view } : {}), ...(last?.gates && taken.clip ? { gates: last.gates } : {}),
      ...(last?.tiltURad !== undefined ? { tiltURad: last.tiltURad } : {}),
    }
    hold(id, taken)
    project.changeSession(home.kind, home.id, label, (draft) => { draft.pictures.push(made) })
    pictureId.value = id
  }

  /** The file of a picture was found again. */
  function reunite(id: string, taken: TakenFile): void {
    hold(id, taken)
  }

  function hold(id: string, { file, clip: own, stand }: TakenFile): void {
    files.set(id, file)
    if (own) clips.set(id, own)
    if (stand) stands.set(id, stand)
  }

  function removePicture(label: string, id: string): void {
    const home = session.value
    if (!home) return
    project.changeSession(home.kind, home.id, label, (draft) => {
      draft.pictures = draft.pictures.filter((each) => each.id !== id)
    })
  }

  /** Puts a mark in a place (an older one there gives way) and forgets what was followed from it. */
  function setMark(label: string, slot: Slot, mark: Omit<PictureMark, 'id' | 'role' | 'corner' | 'frameS'>): void {
    const own = picture.value
    if (!own) return
    const old = markIn(own, slot, frameS.value)
    // A mark taken over from another picture is that picture's too: made anew here, it is another mark.
    const others = pictures.value.filter((each) => each.id !== own.id)
    const alsoElsewhere = others.some((each) => each.marks.some((one) => one.id === old?.id))
    const made: PictureMark = {
      id: old && !alsoElsewhere ? old.id : newId('mark'), role: slot.role, corner: slot.corner, frameS: frameS.value, ...mark,
      repeats: mark.repeats.slice(-MOST_REPEATS),
    }
    editPicture(label, (draft) => {
      const place = draft.marks.findIndex((each) => each.id === (old?.id ?? made.id))
      if (place >= 0) draft.marks[place] = made
      else draft.marks.push(made)
    })
    if (old && film.value?.markIds.includes(old.id)) films.delete(own.id)
  }

  function clearMark(label: string, id: string): void {
    const own = picture.value
    editPicture(label, (draft) => {
      draft.marks = draft.marks.filter((each) => each.id !== id)
    })
    if (own && film.value?.markIds.includes(id)) films.delete(own.id)
  }

  /** Takes the set-up of another picture: its scale, its lens, and those of its marks that stand still. */
  function takeSetup(label: string, from: Picture): void {
    editPicture(label, (draft) => {
      const still = from.marks.filter((each) => each.corner === null && each.role !== 'gate')
      const own = draft.marks.filter((each) => each.corner !== null || each.role === 'gate')
      draft.marks = [...still.map((each) => ({ ...each })), ...own]
      draft.scale = from.scale
      draft.lensK1 = from.lensK1
      if (from.cameraKind) draft.cameraKind = from.cameraKind
      if (from.camera) draft.camera = from.camera
      draft.setupId = from.setupId ?? from.id
      if (from.view) draft.view = from.view
      if (from.tiltURad !== undefined) draft.tiltURad = from.tiltURad
    })
    // The next click is for what is still open, not for a mark that was just taken over.
    activeKey.value = firstOpen()
  }

  /** True where readings of the picture stand in its session. */
  function isHandedOn(id: string): boolean {
    const home = session.value
    const readings = home?.kind === 'airflow' ? home.runs.flatMap((each) => each.readings) : home?.readings ?? []
    return readings.some(({ from, setAside }) => from.kind === 'picture' && from.pictureId === id && setAside === null)
  }

  const heightAt = (of: Picture, corner: Corner, atS: number | null): HeightResult =>
    heightOf(of, corner, datum.value, atS)

  return {
    sessionId, pictureId, side, datum, wantsEdge, frameS, activeKey, files, clips, films, shown, homes, session,
    pictures, picture, file, view, clip, film, slots, active, corners, firstOpen, editPicture, addPicture, reunite,
    removePicture, setMark, clearMark, takeSetup, heightAt,
    isHandedOn,
  }
})

/** A file's name as a record keeps it: one line, not too long. */
function nameOf(file: File): string {
  const plain = [...file.name].filter((letter) => letter >= ' ' && letter !== '\u007f').join('').trim()
  return plain === '' ? 'picture' : plain.slice(-200).trim()
}
