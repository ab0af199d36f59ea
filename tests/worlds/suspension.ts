/**
 * A car on two axles: springs in a line with a slider each (what friction holds, it remembers), and a tray
 * that meets the ground at one place. Forces in N, + is down; drops in mm.
 */

export interface Axles { readonly front: number; readonly rear: number }

export interface TrueCar {
  readonly wheelbaseMm: number
  /** Rates of the axles, N/mm. */
  readonly rate: Axles
  /** Force at which each axle's slider gives way, N. */
  readonly slides: Axles
  /** Where the tray meets the ground, mm behind the front axle line, and the room there at rest, mm. */
  readonly tray: { readonly atMm: number; readonly roomMm: number } | null
}

const ENDS = ['front', 'rear'] as const

export class Suspension {
  /** Force that each spring carries, N. */
  private carried = { front: 0, rear: 0 }

  constructor(private readonly car: TrueCar) {}

  /**
   * Brings these forces on. The slider lags: the spring's force follows only as far as the slider gives way.
   * `shaken`: bounced until nothing is held.
   *
   * @returns drops of the axle lines and whether the tray is on the ground
   */
  settle(forces: Axles, shaken: boolean): { drops: Axles; onGround: boolean } {
    const { rate, slides, tray, wheelbaseMm } = this.car
    for (const end of ENDS) {
      const held = shaken ? 0 : slides[end]
      this.carried[end] = Math.min(Math.max(this.carried[end], forces[end] - held), forces[end] + held)
    }
    const free = { front: this.carried.front / rate.front, rear: this.carried.rear / rate.rear }
    if (!tray) return { drops: free, onGround: false }
    // Lever rule: the ground's push on each axle per newton at the tray, and how far the tray comes down there.
    const lever = { front: 1 - tray.atMm / wheelbaseMm, rear: tray.atMm / wheelbaseMm }
    const down = lever.front * free.front + lever.rear * free.rear
    if (down <= tray.roomMm) return { drops: free, onGround: false }
    const push = (down - tray.roomMm) / (lever.front ** 2 / rate.front + lever.rear ** 2 / rate.rear)
    return {
      drops: {
        front: free.front - (push * lever.front) / rate.front, rear: free.rear - (push * lever.rear) / rate.rear,
      },
      onGround: true,
    }
  }
}
