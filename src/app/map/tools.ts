import type { MarkKind } from '../../core/domain/mark';

/** What a click on the map does. */
export type Tool =
  | { readonly kind: 'look' }
  /** A new line, or on from an end of the present one. */
  | { readonly kind: 'draw'; readonly from: 'new' | 'start' | 'end' }
  | { readonly kind: 'points' }
  | { readonly kind: 'mark'; readonly mark: MarkKind }
  | { readonly kind: 'stretch' };

export const look: Tool = { kind: 'look' };

/** What the tool expects next, said beside the map and to screen readers. */
export const toolHint = (tool: Tool, isDrawing: boolean): string => {
  switch (tool.kind) {
    case 'look':
      return '';
    case 'draw':
      return isDrawing
        ? 'Click for the next point; click the last point again, or Finish, to end the line.'
        : 'Click on the map for the first point.';
    case 'points':
      return 'Drag a point, or the small dot between two to put one in. Click a point to choose it: then arrow keys move it, Delete takes it out.';
    case 'mark':
      return 'Click where it is.';
    case 'stretch':
      return 'Click on the line where the stretch begins, then where it ends.';
  }
};
