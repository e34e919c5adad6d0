import { describe, expect, it } from 'vitest'
import { deviceName } from '../../../server/accounts/services/sessions/device-name.ts'
import { coarseNetwork, networkOf } from '../../../server/accounts/services/sessions/network.ts'

// Addresses kept for documentation: RFC 5737 and RFC 3849.
describe('networkOf', () => {
  it.each([
    ['203.0.113.77', '203.0.113.77'],
    ['::ffff:203.0.113.77', '203.0.113.77'],
    ['2001:db8:1:2:3:4:5:6', '2001:db8:1:2::'],
    ['2001:DB8:1:2:ffff::', '2001:db8:1:2::'],
    ['fe80::1%eth0', 'fe80:0:0:0::'],
    ['not an address', 'not an address'],
  ])('counts %s as %s', (address, network) => expect(networkOf(address)).toBe(network))
})

describe('coarseNetwork', () => {
  it.each([
    ['203.0.113.77', '203.0.113.x'],
    ['::ffff:203.0.113.77', '203.0.113.x'],
    ['2001:db8:1:2:3:4:5:6', '2001:db8:1::x'],
    ['127.0.0.1', 'the server itself'],
    ['::1', 'the server itself'],
    ['', 'unknown'],
  ])('shows %s as %s', (address, network) => expect(coarseNetwork(address)).toBe(network))
})

// As the browsers' makers document their User-Agent headers.
describe('deviceName', () => {
  it.each([
    ['Mozilla/5.0 (Windows NT 10.0; Win64; x64; rv:128.0) Gecko/20100101 Firefox/128.0', 'Firefox on Windows'],
    [
      'Mozilla/5.0 (Linux; Android 10; K) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/130.0.0.0 Mobile Safari/537.36',
      'Chrome on Android',
    ],
    [
      'Mozilla/5.0 (iPhone; CPU iPhone OS 17_5 like Mac OS X) AppleWebKit/605.1.15 (KHTML, like Gecko) Version/17.5 Mobile/15E148 Safari/604.1',
      'Safari on iPhone',
    ],
    [
      'Mozilla/5.0 (Windows NT 10.0; Win64; x64) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/130.0.0.0 Safari/537.36 Edg/130.0.0.0',
      'Edge on Windows',
    ],
    ['curl/8.5.0', 'A program'],
    ['<script>alert(1)</script>', 'A program'],
    [undefined, 'A program'],
  ])('calls %s %s', (userAgent, name) => expect(deviceName(userAgent)).toBe(name))
})
