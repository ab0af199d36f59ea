/**
 * Empty stand-ins for Electron on each system: enough for the packager to put our own files, icon and names
 * around them, where the true binaries can't be had. They can't be run.
 */
import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { NtExecutable, NtExecutableResource, Resource } from 'resedit'

export type System = 'linux' | 'mac' | 'win'

const HELPERS = ['Electron Helper', 'Electron Helper (GPU)', 'Electron Helper (Plugin)', 'Electron Helper (Renderer)']

/** Lays the stand-in of a system down in a folder that is there. */
export function layStandIn(system: System, folder: string, version: string): void {
  writeFileSync(join(folder, 'version'), version)
  if (system === 'mac') return layMac(folder)
  mkdirSync(join(folder, 'resources'))
  writeFileSync(join(folder, system === 'win' ? 'electron.exe' : 'electron'), system === 'win' ? emptyExecutable() : '')
}

function layMac(folder: string): void {
  layBundle(join(folder, 'Electron.app'), 'Electron')
  for (const helper of HELPERS) layBundle(join(folder, 'Electron.app', 'Contents', 'Frameworks', `${helper}.app`), helper)
}

function layBundle(bundle: string, name: string): void {
  const contents = join(bundle, 'Contents')
  for (const part of ['MacOS', 'Resources', 'Frameworks']) mkdirSync(join(contents, part), { recursive: true })
  writeFileSync(join(contents, 'MacOS', name), '')
  writeFileSync(join(contents, 'Info.plist'), `<?xml version="1.0" encoding="UTF-8"?>
<!DOCTYPE plist PUBLIC "-//Apple//DTD PLIST 1.0//EN" "http://www.apple.com/DTDs/PropertyList-1.0.dtd">
<plist version="1.0"><dict><key>CFBundleExecutable</key><string>${name}</string></dict></plist>
`)
}

/** An executable without code, with the version resource that the packager fills in. */
function emptyExecutable(): Buffer {
  const executable = NtExecutable.createEmpty(false, false)
  const resources = NtExecutableResource.from(executable)
  const info = Resource.VersionInfo.createEmpty()
  info.setStringValues({ lang: 1033, codepage: 1200 }, { FileDescription: 'Electron', ProductName: 'Electron' })
  info.outputToResourceEntries(resources.entries)
  resources.outputResource(executable)
  return Buffer.from(executable.generate())
}
