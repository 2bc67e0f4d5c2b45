import fc from 'fast-check';
import { share } from '../../server/quantities/share.ts';
import { accepts, keepsTheContract, refuses } from '../support/contract.ts';

accepts(share, [
  ['90 %', 0.9],
  ['90%', 0.9],
  ['90 percent', 0.9],
  ['12.5 %', 0.125],
  ['0 %', 0],
  ['100 %', 1],
  ['7/8', 0.875],
  ['7/8 ', 0.875],
  ['8/8', 1],
  ['0/8', 0],
  ['1/3', 0.333333333333],
  ['7 oktas', 0.875],
  ['1 okta', 0.125],
  ['7/8 okta', 0.875],
  ['7/8 oktas', 0.875],
  ['7 / 8 oktas', 0.875],
]);

refuses(share, [
  ['90', 'plan/missing-unit', 'Write 90 %', '90 %'],
  ['0.9', 'plan/missing-unit', 'Write 90 %', '90 %'],
  ['0', 'plan/missing-unit', 'Write 0 %', '0 %'],
  ['7', 'plan/ambiguous-value', 'Write 7 % or 7/8'],
  ['1', 'plan/ambiguous-value', 'Write 1 % or 1/8'],
  ['120', 'plan/impossible-value', '0 % to 100 %'],
  ['120 %', 'plan/impossible-value', 'more than the whole'],
  ['3/4 okta', 'plan/ambiguous-value', 'Write 75 % or 9.375 %'],
  ['1/8 %', 'plan/ambiguous-value', '“1/8” is a share by itself. Write 12.5 % or 0.125 %'],
  ['9/8 okta', 'plan/impossible-value', 'more than the whole'],
  ['9/8', 'plan/impossible-value', 'more than the whole'],
  ['-5 %', 'plan/impossible-value', 'less than nothing'],
  ['12,5 %', 'plan/decimal-comma', '12.5', '12.5 %'],
  ['90 ‰', 'plan/unreadable', '%'],
  ['most', 'plan/unreadable', 'a share'],
  ['', 'plan/unreadable', 'a share'],
]);

keepsTheContract(
  share,
  fc.double({ min: 0, max: 1, noNaN: true }).map((value) => Number(value.toPrecision(12))),
);
