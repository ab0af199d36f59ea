/**
 * What is wrong with the text and the keys of a page as it is laid out, measured in the page itself: by the boxes of
 * every line of text (those of drawings and of canvases too), against whatever clips them and against each other.
 * Works in the page alone: it is handed over as it stands and uses nothing from outside of itself.
 */

/** Notes every text that is drawn on a canvas, with its box, until the canvas is wiped. Run before the page's own. */
export function noteCanvasTexts(): void {
  const pen = CanvasRenderingContext2D.prototype
  const [fill, clear] = [pen.fillText, pen.clearRect]
  pen.clearRect = function (x, y, width, height) {
    const own = this.canvas as HTMLCanvasElement & { texts?: unknown[] }
    if (x <= 0 && y <= 0 && width >= own.clientWidth - 1 && height >= own.clientHeight - 1) own.texts = []
    clear.call(this, x, y, width, height)
  }
  pen.fillText = function (text, x, y, most) {
    const own = this.canvas as HTMLCanvasElement & { texts?: unknown[] }
    const size = this.measureText(text)
    const at = this.getTransform()
    const corners = [
      [-size.actualBoundingBoxLeft, -size.actualBoundingBoxAscent],
      [size.actualBoundingBoxRight, size.actualBoundingBoxDescent],
    ].map(([dx, dy]) => at.transformPoint(new DOMPoint(x + dx!, y + dy!)))
    const scale = own.width / Math.max(1, own.clientWidth)
    const [xs, ys] = [corners.map((each) => each.x / scale), corners.map((each) => each.y / scale)]
    own.texts ??= []
    const box = { left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), bottom: Math.max(...ys) }
    own.texts.push({ text, font: this.font, ...box })
    fill.call(this, text, x, y, most as number)
  }
}

/**
 * Each fault in each of the themes as a sentence, once; empty where all is well. A theme whose boxes and faces are
 * those of the one before has its faults, too; any other is measured by itself.
 */
export async function textFaults(themes: readonly string[]): Promise<string[]> {
  interface Box { left: number; right: number; top: number; bottom: number }
  interface Item extends Box { what: string; owner: Element; layer: Element | null; part: number }

  const SLACK = 1.5
  const frame = (): Promise<number> => new Promise((done) => { requestAnimationFrame(done) })
  await frame()
  await frame()
  await frame()

  const root = document.documentElement
  const wide = root.clientWidth
  const found = new Set<string>()
  const styles = new Map<Element, CSSStyleDeclaration>()
  const styleOf = (element: Element): CSSStyleDeclaration => {
    const known = styles.get(element) ?? getComputedStyle(element)
    styles.set(element, known)
    return known
  }
  const above = (element: Element): Element | null => {
    const root = element.assignedSlot ?? element.parentElement ?? element.getRootNode()
    return root instanceof ShadowRoot ? root.host : root instanceof Element ? root : null
  }
  const said = (text: string): string => `“${text.trim().replace(/\s+/g, ' ').slice(0, 48)}”`
  const place = (element: Element): string => {
    const names: string[] = []
    for (let at: Element | null = element; at && names.length < 3; at = above(at)) {
      const name = at.getAttribute('class')?.split(' ')[0]
      names.unshift(`${at.tagName.toLowerCase()}${name ? `.${name}` : ''}`)
    }
    return names.join(' > ')
  }

  /** What an element may be drawn within, and whether the builder could scroll there. */
  interface Clip { box: Box; by: Element; scrolls: boolean; ways: { x: boolean; y: boolean } }
  const clips = (element: Element): Clip[] => {
    const all: Clip[] = []
    let placedBy = styleOf(element).position
    for (let at = above(element); at && placedBy !== 'fixed'; at = above(at)) {
      const style = styleOf(at)
      if (placedBy === 'absolute' && style.position === 'static') continue
      placedBy = style.position
      const ways = { x: style.overflowX !== 'visible', y: style.overflowY !== 'visible' }
      if (at === document.documentElement || at === document.body || (!ways.x && !ways.y)) continue
      const outer = at.getBoundingClientRect()
      const [left, top] = [outer.left + at.clientLeft, outer.top + at.clientTop]
      const inner = at instanceof SVGElement && !(at instanceof SVGSVGElement) ? outer
        : { left, top, right: left + at.clientWidth, bottom: top + at.clientHeight }
      all.push({ box: inner, by: at, scrolls: /auto|scroll/.test(`${style.overflowX} ${style.overflowY}`), ways })
    }
    return all
  }
  const clipsOf = new Map<Element, Clip[]>()
  const cutBy = (element: Element, box: Box): string | null => {
    const all = clipsOf.get(element) ?? clips(element)
    clipsOf.set(element, all)
    for (const { box: room, by, scrolls, ways } of all) {
      const aside = ways.x && (box.left < room.left - SLACK || box.right > room.right + SLACK)
      // Down a list one may scroll; what is merely cut off below is lost.
      const below = ways.y && !scrolls && (box.top < room.top - SLACK || box.bottom > room.bottom + SLACK)
      if (aside || below) return `${scrolls ? 'is scrolled away in' : 'is cut off by'} ${place(by)}`
    }
    if (box.left < -SLACK || box.right > wide + SLACK) return 'lies outside of the page'
    return null
  }
  /** What an element has of its own or from the nearest above it, asked once of each. */
  const inherited = <T>(own: (element: Element) => T | null): (element: Element | null) => T | null => {
    const known = new Map<Element, T | null>()
    const of = (element: Element | null): T | null => {
      if (!element) return null
      const answer = known.has(element) ? known.get(element)! : own(element) ?? of(above(element))
      known.set(element, answer)
      return answer
    }
    return of
  }
  const layerOf = inherited((element) => {
    const { position, zIndex } = styleOf(element)
    const apart = position === 'fixed' || position === 'sticky' || (position === 'absolute' && zIndex !== 'auto')
    return apart ? element : null
  })
  /** Cut away on purpose, for screen readers. */
  const forEarsOnly = inherited((element) => (styleOf(element).clipPath.startsWith('inset(50%') ? true : null))

  /** All that can be seen and is no other's word. */
  const shown = (): Element[] => {
    const modal = document.querySelector('dialog:modal')
    const roots: (Document | ShadowRoot)[] = [document]
    const elements: Element[] = []
    for (const each of roots) {
      for (const element of each.querySelectorAll('*')) {
        if (element.shadowRoot) roots.push(element.shadowRoot)
        if (modal && !modal.contains(element)) continue
        if (!element.checkVisibility({ visibilityProperty: true })) continue
        if (element.closest('.skip, option, script, style, title, desc') || forEarsOnly(element)) continue
        elements.push(element)
      }
    }
    return elements
  }
  const linesOf = (node: Node): DOMRectList => {
    const range = document.createRange()
    range.selectNodeContents(node)
    return range.getClientRects()
  }
  const textsOf = (element: Element): Node[] => [...element.childNodes].filter((node) =>
    node.nodeType === Node.TEXT_NODE && node.textContent?.trim())

  /** Where everything stands, and in what face: two layouts of the same are one. */
  const layout = (elements: readonly Element[]): string => elements.map((element) =>
    [styleOf(element).font, element.getBoundingClientRect(), ...textsOf(element).flatMap((node) => [...linesOf(node)])]
      .map((part) => (typeof part === 'string' ? part : `${part.x} ${part.y} ${part.width} ${part.height}`)).join())
    .join('\n')

  const ruler = document.createElement('canvas').getContext('2d')!
  const widthOf = (text: string, { font, letterSpacing }: CSSStyleDeclaration): number => {
    ruler.font = font
    return ruler.measureText(text).width + (Number.parseFloat(letterSpacing) || 0) * text.length
  }
  interface Drawn extends Box { text: string; font: string }

  const measure = (elements: readonly Element[]): void => {
    clipsOf.clear()
    const items: Item[] = []
    for (const element of elements) {
      for (const node of textsOf(element)) {
        const what = said(node.textContent!)
        let part = 0
        for (const { left, right, top, bottom } of linesOf(node)) {
          if (right - left < 1) continue
          const height = bottom - top
          // The boxes of lines hold room above and below the letters, which may meet.
          const box = { left, right, top: top + 0.22 * height, bottom: bottom - 0.2 * height }
          const cut = cutBy(element, box)
          if (cut) found.add(`${what} ${cut}`)
          else items.push({ ...box, what, owner: element, layer: layerOf(element), part: part++ })
        }
      }
    }

    const ticks: { box: DOMRect; element: Element }[] = []
    for (const element of elements) {
      if (!element.matches('button, input, select, textarea, a[href], summary')) continue
      const box = element.getBoundingClientRect()
      if (box.width === 0) continue
      const label = element.getAttribute('aria-label') ?? (element as HTMLInputElement).labels?.[0]?.textContent
      // Rows of one table are told once.
      const name = (label ?? element.textContent ?? '').replace(/\d+/g, '#')
      const cut = cutBy(element, box)
      if (cut) found.add(`key ${said(name)} ${place(element)} ${cut}`)
      const style = styleOf(element)
      const room = element.clientWidth - Number.parseFloat(style.paddingLeft) - Number.parseFloat(style.paddingRight)
      if (element instanceof HTMLSelectElement) {
        const text = element.selectedOptions[0]?.text ?? ''
        if (widthOf(text, style) > room - 14 + SLACK) found.add(`choice ${said(text)} is cut off in ${place(element)}`)
      } else if (element instanceof HTMLTextAreaElement) {
        const whole = element.scrollHeight <= element.clientHeight + 3
        if (!whole) found.add(`field ${said(element.value)} is cut off in ${place(element)}`)
      } else if (element instanceof HTMLInputElement && /checkbox|radio/.test(element.type)) {
        ticks.push({ box, element })
      } else if (element instanceof HTMLInputElement && element.type !== 'file') {
        const text = element.value || element.placeholder
        if (widthOf(text, style) > room + SLACK) found.add(`field ${said(text)} is cut off in ${place(element)}`)
      }
      if (!cut && !element.matches('button, a, summary')) {
        items.push({
          left: box.left + 2, right: box.right - 2, top: box.top + 2, bottom: box.bottom - 2,
          what: `the field ${said(name)}`, owner: element, layer: layerOf(element), part: 0,
        })
      }
    }
    for (const [index, one] of ticks.entries()) {
      for (const two of ticks.slice(index + 1)) {
        const apart = Math.max(
          one.box.left - two.box.right, two.box.left - one.box.right,
          one.box.top - two.box.bottom, two.box.top - one.box.bottom,
        )
        if (apart < 4) found.add(`ticks of ${place(one.element)} are ${apart.toFixed(0)} px apart`)
      }
    }

    for (const element of elements) {
      if (!(element instanceof HTMLCanvasElement)) continue
      const at = element.getBoundingClientRect()
      const texts = (element as HTMLCanvasElement & { texts?: Drawn[] }).texts ?? []
      for (const [part, { text, font, left, right, top, bottom }] of texts.entries()) {
        if (left < -SLACK || top < -SLACK || right > at.width + SLACK || bottom > at.height + SLACK) {
          found.add(`${said(text)} leaves its chart, ${place(element)}`)
        }
        if (!font.includes('Sofia Sans')) found.add(`${said(text)} is drawn in ${font}`)
        items.push({
          left: at.left + left, right: at.left + right, top: at.top + top, bottom: at.top + bottom, what: said(text),
          owner: element, layer: layerOf(element), part,
        })
      }
    }

    items.sort((one, two) => one.top - two.top)
    for (const [index, one] of items.entries()) {
      for (let next = index + 1; next < items.length; next++) {
        const two = items[next]!
        if (two.top > one.bottom - SLACK) break
        if (one.layer !== two.layer || (one.owner === two.owner && !(one.owner instanceof HTMLCanvasElement))) continue
        const across = Math.min(one.right, two.right) - Math.max(one.left, two.left)
        const down = Math.min(one.bottom, two.bottom) - two.top
        if (across < 2 || down < 2 || one.owner.contains(two.owner) || two.owner.contains(one.owner)) continue
        found.add(`${one.what} lies over ${two.what}, ${place(one.owner)}`)
      }
    }
  }

  const own = root.dataset['theme'] ?? ''
  let before = ''
  for (const theme of themes) {
    root.dataset['theme'] = theme
    const elements = shown()
    const now = layout(elements)
    if (now !== before) measure(elements)
    before = now
  }
  root.dataset['theme'] = own
  return [...found]
}
