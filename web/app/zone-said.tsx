import { differsFromDevice, formatZone } from '../words/format-zone.ts'

/** Once for all of the page: that its times are not those of this device's clock. Nothing where both show the same. */
export function ZoneSaid({ zone }: { zone: string | undefined }) {
  if (!zone || !differsFromDevice(new Date().toISOString(), zone)) return null
  return (
    <aside className="zone-said no-print" aria-label="Whose clock">
      All times are {formatZone(zone)}; this device’s clock shows another.
    </aside>
  )
}
