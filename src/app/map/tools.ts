import type { MarkKind } from '../../core/domain/mark';

/** What a click on the map does. */
export type Tool =
  | { readonly kind: 'look' }
  /** A new line, or on from an end of the present one. */
  | { readonly kind: 'draw'; readonly from: 'new' | 'start' | 'end' }
  | { readonly kind: 'points' }
  | { readonly kind: 'mark'; readonly mark: MarkKind }
  /** A mark to another place, or to a drawn extent. */
  | { readonly kind: 'move-mark'; readonly id: string }
  | { readonly kind: 'extent'; readonly id: string }
  | { readonly kind: 'stretch' };

/** Tools in which the drawing library has the pointer. */
export const isDrawn = ({ kind }: Tool): boolean => kind === 'draw' || kind === 'points' || kind === 'extent';

export const look: Tool = { kind: 'look' };

/** What the tool expects next, said beside the map and to screen readers. */
export const toolHint = (tool: Tool, isDrawing: boolean): string => {
  switch (tool.kind) {
    case 'look':
      return '';
    case 'draw':
      return isDrawing ? 'Next point; click the last one again to end.' : 'Click the first point.';
    case 'points':
      return 'Drag a point, or a dot between two to add one. Click one to choose it.';
    case 'extent':
      return isDrawing
        ? 'Next point of its extent; click the last one again to end.'
        : 'Click where its extent begins.';
    case 'mark':
    case 'move-mark':
      return 'Click where it is.';
    case 'stretch':
      return 'Drag along the line, or click where the stretch begins.';
  }
};
