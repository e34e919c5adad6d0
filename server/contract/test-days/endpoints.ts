import type { Created, EventStream, IdParams } from '../common.ts'
import type { Endpoint } from '../endpoint.ts'
import type { SecondGradingPage, SecondGradingQuery } from '../sheets/second-gradings.ts'
import type {
  BookingMarkBody,
  BookingPlan,
  BookingPlanBody,
  BulkBooking,
  BulkBookingBody,
  CallOff,
  CallOffBody,
  MadeBooking,
  MoveBody,
  ReasonBody,
  WalkIn,
  WalkInBody,
  WalkInParams,
} from './bookings.ts'
import type { DayList, Identified, IdentifyBody } from './day-list.ts'
import type { RunningTestBody, TestDayLine } from './running-tests.ts'
import type {
  BookingBody,
  BookingPage,
  BookingQuery,
  MadeSlots,
  SecondGraderBody,
  SlotChange,
  SlotPage,
  SlotQuery,
  SlotsBody,
  TestDayBody,
  TestDayChange,
  TestDayDetail,
  TestDayPage,
  TestDayQuery,
} from './test-days.ts'

export const listBookings = 'GET /api/bookings' as Endpoint<{ query: typeof BookingQuery; answer: typeof BookingPage }>

export const addBooking = 'POST /api/test-days/:id/bookings' as Endpoint<{
  params: typeof IdParams
  body: typeof BookingBody
  answer: typeof MadeBooking
}>

export const addWalkIn = 'PUT /api/test-days/:id/walk-ins/:bookingId' as Endpoint<{
  params: typeof WalkInParams
  body: typeof WalkInBody
  answer: typeof WalkIn
}>

export const planBookings = 'POST /api/bookings/plan' as Endpoint<{
  body: typeof BookingPlanBody
  answer: typeof BookingPlan
}>

export const bookInBulk = 'POST /api/bookings/bulk' as Endpoint<{
  body: typeof BulkBookingBody
  answer: typeof BulkBooking
}>

export const moveBooking = 'POST /api/bookings/:id/move' as Endpoint<{
  params: typeof IdParams
  body: typeof MoveBody
  answer: typeof MadeBooking
}>

export const cancelBooking = 'POST /api/bookings/:id/cancel' as Endpoint<{
  params: typeof IdParams
  body: typeof ReasonBody
  answer: typeof Created
}>

export const markBooking = 'POST /api/bookings/:id/mark' as Endpoint<{
  params: typeof IdParams
  body: typeof BookingMarkBody
  answer: typeof Created
}>

export const getDayList = 'GET /api/day-list' as Endpoint<{ answer: typeof DayList }>

export const identifySoldier = 'POST /api/soldiers/identify' as Endpoint<{
  body: typeof IdentifyBody
  answer: typeof Identified
}>

export const getTestDayLine = 'GET /api/test-days/:id/line' as Endpoint<{
  params: typeof IdParams
  answer: typeof TestDayLine
}>

export const followTestDayLine = 'GET /api/test-days/:id/line/changes' as Endpoint<{
  params: typeof IdParams
  answer: typeof EventStream
}>

export const setSecondGrader = 'POST /api/bookings/:id/second-grader' as Endpoint<{
  params: typeof IdParams
  body: typeof SecondGraderBody
  answer: typeof Created
}>

export const listSecondGradings = 'GET /api/second-gradings' as Endpoint<{
  query: typeof SecondGradingQuery
  answer: typeof SecondGradingPage
}>

export const reportRunningTest = 'PUT /api/running-tests/:id' as Endpoint<{
  params: typeof IdParams
  body: typeof RunningTestBody
}>

export const endRunningTest = 'DELETE /api/running-tests/:id' as Endpoint<{ params: typeof IdParams }>

export const listTestDays = 'GET /api/test-days' as Endpoint<{ query: typeof TestDayQuery; answer: typeof TestDayPage }>

export const createTestDay = 'POST /api/test-days' as Endpoint<{ body: typeof TestDayBody; answer: typeof Created }>

export const getTestDay = 'GET /api/test-days/:id' as Endpoint<{
  params: typeof IdParams
  answer: typeof TestDayDetail
}>

export const changeTestDay = 'PATCH /api/test-days/:id' as Endpoint<{
  params: typeof IdParams
  body: typeof TestDayChange
  answer: typeof Created
}>

export const addSlots = 'POST /api/test-days/:id/slots' as Endpoint<{
  params: typeof IdParams
  body: typeof SlotsBody
  answer: typeof MadeSlots
}>

export const planCallOff = 'GET /api/test-days/:id/call-off-plan' as Endpoint<{
  params: typeof IdParams
  answer: typeof BookingPlan
}>

export const callOffTestDay = 'POST /api/test-days/:id/call-off' as Endpoint<{
  params: typeof IdParams
  body: typeof CallOffBody
  answer: typeof CallOff
}>

export const listSlots = 'GET /api/slots' as Endpoint<{ query: typeof SlotQuery; answer: typeof SlotPage }>

export const changeSlot = 'PATCH /api/slots/:id' as Endpoint<{
  params: typeof IdParams
  body: typeof SlotChange
  answer: typeof MadeBooking
}>

export const removeSlot = 'DELETE /api/slots/:id' as Endpoint<{ params: typeof IdParams }>
