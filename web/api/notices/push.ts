import { queryOptions } from '@tanstack/react-query'
import * as endpoints from '#contract/notices/endpoints.ts'
import type { PushSettingBody, PushSubscriptionBody } from '#contract/notices/push.ts'
import { call } from '../client.ts'

/** Under which a browser keeps whose notifications it takes. */
export const PUSH_TAKEN_FOR = 'reviewstand.notifications'

/** Whether notifications are sent, and which of one's browsers take them. */
export const pushQuery = queryOptions({ queryKey: ['push'], queryFn: () => call(endpoints.getPush) })

export const changePush = (body: PushSettingBody) => call(endpoints.changePush, { body })

export const subscribeToPush = (body: PushSubscriptionBody) => call(endpoints.subscribeToPush, { body })

export const unsubscribeFromPush = () => call(endpoints.unsubscribeFromPush)
