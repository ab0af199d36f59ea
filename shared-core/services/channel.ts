/** Where the table is reached: the one channel (desktop) and the one path prefix (loopback host). */
export const SERVICE_CHANNEL = 'squatbench:service'
export const SERVICE_PATH = '/service/'
