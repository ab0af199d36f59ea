/** By this Windows tells whose window is whose, and macOS whose bundle; the packager writes it into both. */
export const APP_ID = 'app.squatbench'
