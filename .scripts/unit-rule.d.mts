import type { Rule } from 'eslint';

export declare const oneUnit: Rule.RuleModule;
