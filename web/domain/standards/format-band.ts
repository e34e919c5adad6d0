interface Band {
  min?: string | null
  max?: string | null
  unit: string
}

/** A gauge's band in words: "4 to 6 in", "at least 4 in", "at most 6 in", or only the unit. */
export const formatBand = ({ min, max, unit }: Band): string => {
  if (min != null && max != null) return `${min} to ${max} ${unit}`
  if (min != null) return `at least ${min} ${unit}`
  return max != null ? `at most ${max} ${unit}` : unit
}
