import { describe, expect, it } from 'vitest';
import { begun, changed, ended, redone, undone } from '../../src/page/history.js';

describe('undo and redo', () => {
  it('goes back and forth over every change', () => {
    const three = changed(changed(begun(1), 2), 3);
    expect(undone(three).now).toBe(2);
    expect(undone(undone(three)).now).toBe(1);
    expect(redone(undone(undone(three))).now).toBe(2);
    expect(redone(redone(undone(undone(three)))).now).toBe(3);
  });

  it('stays where there is nothing further', () => {
    const one = begun('only');
    expect(undone(one).now).toBe('only');
    expect(redone(one).now).toBe('only');
  });

  it('takes a drag back as one change, and two drags as two', () => {
    let drag = begun(0);
    for (const at of [1, 2, 3]) drag = changed(drag, at, 'drag');
    expect(undone(drag).now).toBe(0);
    drag = ended(drag);
    for (const at of [4, 5]) drag = changed(drag, at, 'drag');
    expect(undone(drag).now).toBe(3);
    expect(undone(undone(drag)).now).toBe(0);
  });

  it('forgets what was undone once something else is done', () => {
    const other = changed(undone(changed(begun(1), 2)), 7);
    expect(redone(other).now).toBe(7);
    expect(undone(other).now).toBe(1);
  });

  it('keeps the last 200', () => {
    let long = begun(0);
    for (let n = 1; n <= 300; n++) long = changed(long, n);
    for (let n = 0; n < 400; n++) long = undone(long);
    expect(long.now).toBe(100);
  });
});
