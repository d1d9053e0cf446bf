import { applyFigures } from '../core/assumptions/apply';
import type { Figures } from '../core/assumptions/figures';
import type { Project } from '../core/domain/project';
import { valueOf } from './inputs';

/** The model's figures with what the project changes. */
export const figuresOf = (project: Project): Figures => valueOf(applyFigures(project.assumptions));
