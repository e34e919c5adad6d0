import ical, { ICalEventStatus, ICalEventTransparency } from 'ical-generator'
import type { CalendarEvent } from '../../domain/calendar/calendar-event.ts'
import { isolated } from '../../domain/calendar/isolate.ts'

/** How often a program should ask again. */
const TTL_SECONDS = 3_600

/**
 * The events as RFC 5545 text. Times are instants in UTC, so that no definition of a zone can be old; whole days are dates
 * without a time. What was called off stays, marked as cancelled, so that programs take it out. Names in right-to-left scripts
 * are isolated, so that they leave the figures beside them in their order.
 * In: the events, when it is written, the address of this server.
 */
export function writeCalendar(events: readonly CalendarEvent[], now: Date, origin: string): string {
  const calendar = ical({
    name: 'Reviewstand',
    prodId: { company: 'Reviewstand', product: 'Calendar', language: 'EN' },
    ttl: TTL_SECONDS,
  })
  for (const { id, title, place, day, startsAt, endsAt, note, cancelled, path } of events) {
    calendar.createEvent({
      id: `${id}@reviewstand`,
      stamp: now,
      allDay: startsAt === null,
      start: new Date(startsAt ?? `${day}T00:00:00Z`),
      ...(endsAt && startsAt ? { end: new Date(endsAt) } : {}),
      timezone: startsAt === null ? 'UTC' : null,
      summary: isolated(title),
      ...(place && { location: isolated(place) }),
      ...(note && { description: isolated(note) }),
      url: origin + path,
      status: cancelled ? ICalEventStatus.CANCELLED : ICalEventStatus.CONFIRMED,
      transparency: startsAt === null || cancelled ? ICalEventTransparency.TRANSPARENT : ICalEventTransparency.OPAQUE,
    })
  }
  return calendar.toString()
}
