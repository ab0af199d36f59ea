import { homedir } from 'node:os'
import { join, resolve } from 'node:path'
import { describe, expect, it } from 'vitest'
import { libraryFolder } from '@electron/services'
import { openCommand } from '@electron/openBrowser'
import { startOptions } from '@electron/startOptions'

describe('the options of a start', () => {
  it('have defaults, and each can be given', () => {
    expect(startOptions([])).toEqual({
      browser: false, open: true, port: null, library: null, fetch: false, help: false,
    })
    expect(startOptions(['--browser', '--no-open', '--port', '8123', '--library', 'here', '--fetch'])).toEqual({
      browser: true, open: false, port: 8123, library: 'here', fetch: true, help: false,
    })
  })

  it('leave a port that was asked for as it is, 0 for any free one', () => {
    expect(startOptions(['--port', '0']).port).toBe(0)
  })

  it.each([['--port', '70000'], ['--port', 'x'], ['--port', '-1'], ['--nothing'], ['loose']])(
    'refuse %j %s in words', (...args) => {
      expect(() => startOptions(args.filter((each) => typeof each === 'string'))).toThrow(/port|nothing|loose/)
    },
  )
})

describe('the library’s folder', () => {
  it('is the one asked for, else the one named by the environment', () => {
    expect(libraryFolder('asked', { SQUATBENCH_LIBRARY: '/named' })).toBe(resolve('asked'))
    expect(libraryFolder(null, { SQUATBENCH_LIBRARY: '/named' })).toBe(resolve('/named'))
  })

  // XDG Base Directory Specification 0.8: default $HOME/.local/share; relative paths are invalid.
  it.each([
    [{}, 'linux', join(homedir(), '.local', 'share', 'squatbench', 'library')],
    [{ XDG_DATA_HOME: '/data' }, 'linux', join('/data', 'squatbench', 'library')],
    [{ XDG_DATA_HOME: 'relative' }, 'linux', join(homedir(), '.local', 'share', 'squatbench', 'library')],
    [{ SQUATBENCH_LIBRARY: '' }, 'darwin', join(homedir(), 'Library', 'Application Support', 'Squatbench', 'library')],
    [{ APPDATA: '/roaming' }, 'win32', join('/roaming', 'Squatbench', 'library')],
  ] as const)('for %j on %s is %s', (environment, platform, folder) => {
    expect(libraryFolder(null, environment, platform)).toBe(folder)
  })
})

describe('opening the browser', () => {
  it.each([['darwin', 'open'], ['win32', 'rundll32'], ['linux', 'xdg-open']] as const)('on %s runs %s', (platform, program) => {
    const [found, args] = openCommand('http://127.0.0.1:1/?token=x&y', platform)
    expect(found).toBe(program)
    expect(args.at(-1)).toBe('http://127.0.0.1:1/?token=x&y')
  })
})
