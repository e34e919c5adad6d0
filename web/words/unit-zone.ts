let known: string | null = null

/** The zone of this device. */
export const deviceZone = (): string => Intl.DateTimeFormat().resolvedOptions().timeZone

/** The zone whose clock people here go by: of the unit of whoever is signed in, and of this device before anybody is. */
export const unitZone = (): string => known ?? deviceZone()

/** From now on times and days are those of this zone, wherever the device is; null: of the device. */
export const keepUnitZone = (zone: string | null | undefined): void => {
  known = zone ?? null
}
