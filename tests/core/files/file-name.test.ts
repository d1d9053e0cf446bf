import { expect, test } from 'vitest';
import { safeFileName } from '../../../src/core/files/file-name';

test.each([
  ['Mount Ombry', 'Mount Ombry.gpx'],
  ['../../etc/passwd', 'etc_passwd.gpx'],
  ['C:\\Users\\a', 'C_Users_a.gpx'],
  ['con', '_con.gpx'],
  ['LPT1.notes', '_LPT1.notes.gpx'],
  ['control', 'control.gpx'],
  ['', 'plan.gpx'],
  ['...', 'plan.gpx'],
  ['a\u202egpj.exe', 'a_gpj.exe.gpx'],
  ['a\0b\nc', 'a_b_c.gpx'],
  ['Größte Wächte 2', 'Größte Wächte 2.gpx'],
  ['प्रस्थान', 'प्रस्थान.gpx'],
  ['trailing. . ', 'trailing.gpx'],
])('P18 %j is kept as %j', (title, name) => expect(safeFileName(title, '.gpx')).toBe(name));

test('P18 300 characters become 80, with the whole ending', () => {
  const name = safeFileName('ö'.repeat(300), '.firnward.json');
  expect([...name]).toHaveLength(80);
  expect(name).toMatch(/^ö+\.firnward\.json$/);
});
