/**
 * A disk in memory that forgets what was not synced, after what POSIX promises: the content of a file
 * is safe after its own sync, a name after the sync of its folder. A rename is one step.
 */
import type { Disk } from '@electron/services/disk'
import type { Chance } from './fuzz/mutate'

interface FileNode { kind: 'file'; ino: number; now: string; safe: string | null; changedMs: number }
interface FolderNode { kind: 'folder'; ino: number; now: Map<string, Node>; safe: Map<string, Node>; changedMs: number }
type Node = FileNode | FolderNode

/** One change of names that is not safe yet. */
interface Pending { folders: FolderNode[]; apply(): void }

const failed = (code: string, path: string): Error => Object.assign(new Error(`${code}, '${path}'`), { code, path })
const partsOf = (path: string): string[] => path.split('/').filter((part) => part !== '')

export class MemoryDisk {
  /** Operations done so far; the one that reaches `cutAt`, and all later ones, fail. */
  operations = 0
  cutAt = Infinity
  private nextIno = 1
  private clockMs = Date.UTC(2031, 4, 4)
  private readonly root: FolderNode = this.newFolder()
  private pending: Pending[] = []

  /**
   * The power is cut: names that were not synced are there or not, unsynced content is old, half or
   * whole. `inOrder` takes the changes of names up to some moment, as a journal does; else any of them.
   */
  cut(chance: Chance, inOrder: boolean): void {
    const until = chance.int(0, this.pending.length)
    this.pending.forEach((each, index) => {
      if (inOrder ? index < until : chance.int(0, 1) === 0) each.apply()
    })
    this.pending = []
    const settle = (node: Node): void => {
      if (node.kind === 'file') {
        const half = node.now.slice(0, Math.floor(node.now.length / 2))
        if (node.safe !== node.now) node.now = chance.pick([node.safe ?? '', half, node.now])
        node.safe = node.now
        return
      }
      node.now = new Map(node.safe)
      for (const each of node.now.values()) settle(each)
    }
    settle(this.root)
    this.cutAt = Infinity
  }

  /** The library's view of this disk. */
  get disk(): Disk {
    const step = (path: string): void => {
      if (this.operations >= this.cutAt) throw failed('EIO', path)
      this.operations += 1
    }
    const disk = {
      open: async (path: string, flags: string) => {
        step(path)
        const node = flags === 'wx' ? this.create(path) : this.find(path)
        return {
          writeFile: async (text: string) => {
            step(path)
            if (node.kind === 'file') node.now = String(text)
          },
          sync: async () => {
            step(path)
            this.sync(node)
          },
          close: async () => undefined,
        }
      },
      rename: async (from: string, to: string) => {
        step(from)
        this.rename(from, to)
      },
      readdir: async (path: string) => {
        step(path)
        return [...this.folder(path).now.keys()]
      },
      mkdir: async (path: string) => {
        step(path)
        return this.makeFolders(path)
      },
      unlink: async (path: string) => {
        step(path)
        this.find(path)
        this.remove(path)
      },
      rm: async (path: string) => {
        step(path)
        if (this.look(path) !== undefined) this.remove(path)
      },
      stat: async (path: string) => {
        step(path)
        const node = this.find(path)
        return {
          ino: node.ino, mtimeMs: node.changedMs, ctimeMs: node.changedMs, size: node.kind === 'file' ? node.now.length : 0,
          isDirectory: () => node.kind === 'folder', isFile: () => node.kind === 'file',
        }
      },
      readFile: async (path: string) => {
        step(path)
        const node = this.find(path)
        if (node.kind === 'folder') throw failed('EISDIR', path)
        return node.now
      },
    }
    return disk as unknown as Disk
  }

  private tick(): number {
    this.clockMs += 5
    return this.clockMs
  }

  private newFolder(): FolderNode {
    return { kind: 'folder', ino: this.nextIno++, now: new Map(), safe: new Map(), changedMs: this.tick() }
  }

  private look(path: string): Node | undefined {
    return partsOf(path).reduce<Node | undefined>(
      (at, part) => (at?.kind === 'folder' ? at.now.get(part) : undefined), this.root,
    )
  }

  private find(path: string): Node {
    const node = this.look(path)
    if (node === undefined) throw failed('ENOENT', path)
    return node
  }

  private folder(path: string): FolderNode {
    const node = this.find(path)
    if (node.kind !== 'folder') throw failed('ENOTDIR', path)
    return node
  }

  private above(path: string): { folder: FolderNode; name: string } {
    const parts = partsOf(path)
    return { folder: this.folder(parts.slice(0, -1).join('/')), name: parts.at(-1) ?? '' }
  }

  private put(folder: FolderNode, name: string, node: Node): void {
    folder.now.set(name, node)
    folder.changedMs = this.tick()
    this.pending.push({ folders: [folder], apply: () => void folder.safe.set(name, node) })
  }

  private create(path: string): FileNode {
    const { folder, name } = this.above(path)
    if (folder.now.has(name)) throw failed('EEXIST', path)
    const node: FileNode = { kind: 'file', ino: this.nextIno++, now: '', safe: null, changedMs: this.tick() }
    this.put(folder, name, node)
    return node
  }

  private makeFolders(path: string): string | undefined {
    const parts = partsOf(path)
    let first: string | undefined
    parts.forEach((name, index) => {
      const here = parts.slice(0, index + 1).join('/')
      if (this.look(here) !== undefined) return
      this.put(this.folder(parts.slice(0, index).join('/')), name, this.newFolder())
      first ??= `/${here}`
    })
    return first
  }

  private remove(path: string): void {
    const { folder, name } = this.above(path)
    const node = folder.now.get(name)
    folder.now.delete(name)
    folder.changedMs = this.tick()
    const apply = (): void => {
      if (folder.safe.get(name) === node) folder.safe.delete(name)
    }
    this.pending.push({ folders: [folder], apply })
  }

  private rename(from: string, to: string): void {
    const node = this.find(from)
    const old = this.above(from)
    const own = this.above(to)
    const there = own.folder.now.get(own.name)
    if (there?.kind === 'folder' && there.now.size > 0) throw failed('ENOTEMPTY', to)
    old.folder.now.delete(old.name)
    own.folder.now.set(own.name, node)
    old.folder.changedMs = own.folder.changedMs = this.tick()
    const apply = (): void => {
      if (old.folder.safe.get(old.name) === node) old.folder.safe.delete(old.name)
      own.folder.safe.set(own.name, node)
    }
    this.pending.push({ folders: [old.folder, own.folder], apply })
  }

  private sync(node: Node): void {
    if (node.kind === 'file') {
      node.safe = node.now
      return
    }
    this.pending = this.pending.filter((each) => {
      if (!each.folders.includes(node)) return true
      each.apply()
      return false
    })
  }
}
