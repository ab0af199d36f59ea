/** How the program is packaged. The bundles hold all they need, so no package folder goes along. */
import type { Configuration } from 'electron-builder'
import { APP_ID } from '../appId'

/** The icon of each system, made by `icon.ts`: no tool has to be fetched to convert one. */
export const ICON_FILES = {
  linux: 'electron/tools/icon.png', mac: 'electron/tools/icon.icns', win: 'electron/tools/icon.ico',
} as const

/** A fresh copy each time: electron-builder writes into what it is given. */
export const builderConfig = (environment: NodeJS.ProcessEnv = process.env): Configuration => ({
  appId: APP_ID,
  productName: 'Squatbench',
  copyright: 'The Squatbench maintainers',
  directories: { output: 'dist', buildResources: 'electron/tools' },
  files: ['out/main/**', 'out/preload/**', 'out/renderer/**', 'package.json', '!**/*.map', '!node_modules/**'],
  asar: true,
  npmRebuild: false,
  publish: null,
  // Nothing but the packaged app can be run by the binary, and only as it was packaged.
  electronFuses: {
    runAsNode: false,
    // There are no cookies to encrypt, and the key would be asked of the system's keychain at each start.
    enableCookieEncryption: false,
    enableNodeOptionsEnvironmentVariable: false,
    enableNodeCliInspectArguments: false,
    enableEmbeddedAsarIntegrityValidation: true,
    onlyLoadAppFromAsar: true,
    grantFileProtocolExtraPrivileges: false,
    // Setting fuses breaks the signature that Electron comes with; without one Apple Silicon starts nothing.
    resetAdHocDarwinSignature: true,
  },
  linux: {
    icon: ICON_FILES.linux,
    target: ['AppImage', 'deb'],
    category: 'Science',
    synopsis: 'Squat to downforce for scale cars',
    // Desktops tell by this file name whose window is whose; `desktopName` in package.json tells Electron.
    syncDesktopName: true,
  },
  mac: {
    icon: ICON_FILES.mac,
    target: ['dmg', 'zip'],
    category: 'public.app-category.utilities',
    hardenedRuntime: true,
    // Without a certificate the program is signed by nobody in particular, which Apple Silicon asks for at least.
    ...(!environment['CSC_LINK'] && !environment['CSC_NAME'] && { identity: '-' }),
  },
  win: { icon: ICON_FILES.win, target: ['nsis'] },
  nsis: { oneClick: false, allowToChangeInstallationDirectory: true, deleteAppDataOnUninstall: false },
})
