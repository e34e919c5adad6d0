const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
]

/** A month from `YYYY-MM`: "August 2026". */
export const sayMonth = (month: string): string => `${MONTHS[Number(month.slice(5)) - 1] ?? ''} ${month.slice(0, 4)}`

/** For an axis: "Aug 26". */
export const sayMonthShort = (month: string): string =>
  `${(MONTHS[Number(month.slice(5)) - 1] ?? '').slice(0, 3)} ${month.slice(2, 4)}`
