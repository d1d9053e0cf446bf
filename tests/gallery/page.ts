import type { Component } from 'svelte';
import { render } from 'svelte/server';
import { themeStyle, type ThemeName } from '../../src/app/look/themes';

/** A component rendered without a browser, as a page of its own that can be opened and looked at. */
export function galleryPage<Props extends Record<string, unknown>>(
  component: Component<Props>,
  props: Props,
  theme: ThemeName = 'day',
): string {
  const { head, body } = render(component as Component<Record<string, unknown>>, { props });
  return [
    '<!doctype html>',
    `<html lang="en" style="${themeStyle(theme)}">`,
    '<head><meta charset="utf-8"><title>Gallery</title>',
    '<link rel="stylesheet" href="../../../src/app/look/base.css">',
    // Maps to the sources name this machine's folders.
    head.replaceAll(/\/\*# sourceMappingURL=.*?\*\//g, ''),
    '</head>',
    // Marks for taking over a page that came from a server: nothing to look at.
    `<body>${body.replaceAll(/<!--.*?-->/g, '')}</body>`,
    '</html>',
    '',
  ].join('\n');
}
