/** Questions to workers, over a real line between two ends that copies what it carries, as a worker's does. */
import { afterEach, describe, expect, it } from 'vitest'
import { asker, newestOnly, type Asker } from '@renderer/workers/ask'
import { serve, type Tools } from '@renderer/workers/serve'

const deeds = {
  double: (n: number) => 2 * n,
  fail: (why: string): never => { throw new Error(why) },
  uncopied: () => () => 'a function can’t be sent',
  async count({ to, partly }: { to: number; partly: boolean }, { signal, progress }: Tools<number>): Promise<number> {
    for (let n = 1; n <= to; n++) {
      await progress(n)
      await new Promise((resolve) => { setTimeout(resolve, 1) })
      if (signal.aborted && partly) return n
      signal.throwIfAborted()
    }
    return to
  },
  never: () => new Promise<void>(() => {}),
}

/** A worker by another name: the served end of a message channel, with a way to break it. */
class StandIn {
  onmessage: ((event: MessageEvent) => void) | null = null
  onerror: ((event: ErrorEvent) => void) | null = null
  private readonly line = new MessageChannel()
  ended = false
  constructor() {
    serve(deeds, this.line.port2 as never)
    this.line.port1.onmessage = (event) => this.onmessage?.(event)
  }
  postMessage(message: unknown): void { this.line.port1.postMessage(message) }
  terminate(): void { this.ended = true; this.line.port1.close() }
  break(why: string): void { this.onerror?.({ message: why } as ErrorEvent) }
}

const started: StandIn[] = []
function ask(): Asker<typeof deeds> {
  started.length = 0
  return asker<typeof deeds>(() => {
    started.push(new StandIn())
    return started.at(-1) as unknown as Worker
  })
}
afterEach(() => { for (const each of started) each.terminate() })

describe('a question to a worker', () => {
  it('is answered, each by its own answer', async () => {
    const asked = ask()
    expect(await Promise.all([3, 4, 5].map((n) => asked.ask('double', n)))).toEqual([6, 8, 10])
    expect(started).toHaveLength(1)
  })

  it('is refused with its reason where the deed throws, and the next is answered', async () => {
    const asked = ask()
    await expect(asked.ask('fail', 'no such curve')).rejects.toThrow('no such curve')
    await expect(asked.ask('uncopied', undefined as never)).rejects.toThrow('could not be cloned')
    await expect(asked.ask('double', (() => 1) as never)).rejects.toThrow('could not be cloned')
    expect(await asked.ask('double', 1)).toBe(2)
  })

  it('says how far it is, and can be stopped with or without what there is so far', async () => {
    const asked = ask()
    const heard: number[] = []
    expect(await asked.ask('count', { to: 3, partly: false }, { onProgress: (n) => heard.push(n) })).toBe(3)
    expect(heard).toEqual([1])
    const stop = new AbortController()
    const partly = asked.ask('count', { to: 1e6, partly: true }, { signal: stop.signal, onProgress: () => stop.abort() })
    expect(await partly).toBeLessThan(1000)
    const other = new AbortController()
    const whole = asked.ask('count', { to: 1e6, partly: false }, { signal: other.signal, onProgress: () => other.abort() })
    await expect(whole).rejects.toMatchObject({ name: 'AbortError' })
    await expect(asked.ask('double', 1, { signal: AbortSignal.abort() })).rejects.toMatchObject({ name: 'AbortError' })
  })

  it('does not stay open where the worker breaks or is ended; the next one starts a new worker', async () => {
    const asked = ask()
    const broken = [asked.ask('never', undefined as never), asked.ask('never', undefined as never)]
    started[0]!.break('out of memory')
    for (const each of await Promise.allSettled(broken)) {
      expect(each).toMatchObject({ status: 'rejected', reason: { message: 'out of memory' } })
    }
    expect(started[0]!.ended).toBe(true)
    expect(await asked.ask('double', 2)).toBe(4)
    const ended = asked.ask('never', undefined as never)
    asked.end()
    await expect(ended).rejects.toMatchObject({ name: 'AbortError' })
    expect(await asked.ask('double', 3)).toBe(6)
    expect(started).toHaveLength(3)
  })
})

describe('a deed for the newest wish only', () => {
  it('runs once more for all wishes made meanwhile, and tells the first that it is old', async () => {
    let wish = 0
    const done: [number, boolean][] = []
    const run = newestOnly(async (newest) => {
      const mine = wish
      await new Promise((resolve) => { setTimeout(resolve, 5) })
      done.push([mine, newest()])
    })
    const first = run()
    for (wish = 1; wish < 4; wish++) void run()
    await first
    expect(done).toEqual([[0, false], [4, true]])
  })

  it('can be wished again after it failed', async () => {
    let fails = true
    const run = newestOnly(async () => { if (fails) throw new Error('once') })
    await expect(run()).rejects.toThrow('once')
    fails = false
    await expect(run()).resolves.toBeUndefined()
  })
})
