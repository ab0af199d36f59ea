/** How the program is packaged. The bundles hold all they need, so no package folder goes along. */
import type { Configuration } from 'electron-builder'

/** The icon of each system, made by `icon.ts`: no tool has to be fetched to convert one. */
export const ICON_FILES = {
  linux: 'electron/tools/icon.png', mac: 'electron/tools/icon.icns', win: 'electron/tools/icon.ico',
} as const

/** A fresh copy each time: electron-builder writes into what it is given. */
export const builderConfig = (): Configuration => ({
  appId: 'app.squatbench',
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
    enableCookieEncryption: true,
    enableNodeOptionsEnvironmentVariable: false,
    enableNodeCliInspectArguments: false,
    enableEmbeddedAsarIntegrityValidation: true,
    onlyLoadAppFromAsar: true,
    grantFileProtocolExtraPrivileges: false,
  },
  linux: {
    icon: ICON_FILES.linux,
    target: ['AppImage', 'deb'],
    category: 'Science',
    synopsis: 'Squat to downforce for scale cars',
    maintainer: 'The Squatbench maintainers <maintainers@squatbench.invalid>',
  },
  mac: { icon: ICON_FILES.mac, target: ['dmg', 'zip'], category: 'public.app-category.utilities', hardenedRuntime: true },
  win: { icon: ICON_FILES.win, target: ['nsis'] },
  nsis: { oneClick: false, allowToChangeInstallationDirectory: true, deleteAppDataOnUninstall: false },
})
