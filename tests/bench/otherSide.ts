/** Starts the other side of the benchmark and asks it for one timing at a time. */
import { spawn, spawnSync } from 'node:child_process'
import { delimiter, join } from 'node:path'
import { createInterface } from 'node:readline'
import { fileURLToPath } from 'node:url'

export interface Timing { readonly seconds: number; readonly answer: number[] | null }

export interface OtherSide {
  readonly versions: string
  ask(task: string, what: string | number, repeats: number): Promise<Timing>
  close(): void
}

/** The first python3 on the path that has scipy; null where there is none. */
function findPython(): string | null {
  const places = (process.env.PATH ?? '').split(delimiter).map((folder) => join(folder, 'python3'))
  return places.find((each) => spawnSync(each, ['-c', 'import scipy.odr'], { stdio: 'ignore' }).status === 0) ?? null
}

/** Null where no python3 with scipy is on the path. `data` is what its script works on. */
export async function startOtherSide(data: unknown): Promise<OtherSide | null> {
  const python = findPython()
  if (python === null) return null
  const script = fileURLToPath(new URL('./other_side.py', import.meta.url))
  const child = spawn(python, ['-W', 'ignore', script], { stdio: ['pipe', 'pipe', 'inherit'] })
  const lines = createInterface({ input: child.stdout })[Symbol.asyncIterator]()
  const read = async () => {
    const { value, done } = await lines.next()
    if (done) throw new Error('the other side ended')
    return JSON.parse(value as string) as Record<string, unknown>
  }
  child.stdin.write(`${JSON.stringify(data)}\n`)
  const { scipy, numpy } = await read()
  return {
    versions: `scipy ${scipy}, numpy ${numpy}`,
    async ask(task, what, repeats) {
      child.stdin.write(`${JSON.stringify({ do: task, what, repeats })}\n`)
      return await read() as unknown as Timing
    },
    close: () => child.stdin.end(),
  }
}
