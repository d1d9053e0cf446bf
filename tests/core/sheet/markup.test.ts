import { expect, test } from 'vitest';
import { el, writeMarkup } from '../../../src/core/sheet/markup';

test('text and attributes stay text', () => {
  const page = el('p', { title: '"><script>' }, '<b>&"\'');
  expect(writeMarkup(page)).toBe('<p title="&quot;&gt;&lt;script&gt;">&lt;b&gt;&amp;&quot;&#39;</p>');
});

test('attributes that are null are left out, empty elements are not closed', () => {
  expect(writeMarkup(el('td', { class: null }, 'a', el('br'), 'b'))).toBe('<td>a<br>b</td>');
});

test.each([
  el('script', {}, 'x'),
  el('SCRIPT', {}, 'x'),
  el('p', { onclick: 'x' }),
  el('p', { style: 'x' }),
  el('p><script', {}),
  el('p', { 'a b': 'x' }),
])('what could run or break the policy is not written', (markup) => {
  expect(() => writeMarkup(markup)).toThrow('not written');
});

test('characters that no page may hold are dropped', () => {
  expect(writeMarkup('a\u0000b\u0008c\nd')).toBe('abc\nd');
});
