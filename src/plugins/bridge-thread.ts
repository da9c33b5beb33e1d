/**
 * The thread that owns the programs. A simulation goes on without ever giving way to what comes from outside, so it can't
 * read pipes itself: it asks here, and sleeps until the answer is there.
 */
import { workerData } from 'node:worker_threads';
import type { BridgeAnswer, BridgeQuestion, BridgeStart } from './bridge-messages.js';
import { Program } from './program.js';

const { port, signal, shared, limit_s } = workerData as BridgeStart;
const answered = new Int32Array(signal);
const programs = new Map<number, Program>();
const ending = new Set<Promise<void>>();

port.on('message', (question: BridgeQuestion) => void hear(question));

async function hear(question: BridgeQuestion): Promise<void> {
  switch (question.ask) {
    case 'start':
      programs.set(question.id, new Program(question.words, shared, 1000 * limit_s));
      return;
    case 'exchange':
      answer(await programs.get(question.id)!.exchange(question.text, question.marker));
      return;
    case 'end':
      end(question.id);
      return;
    case 'close':
      for (const id of programs.keys()) end(id);
      await Promise.all(ending);
      answer({ told: 'closed' });
      port.close();
  }
}

function end(id: number): void {
  const program = programs.get(id);
  programs.delete(id);
  if (!program) return;
  const ended = program.end().finally(() => ending.delete(ended));
  ending.add(ended);
}

function answer(message: BridgeAnswer): void {
  port.postMessage(message);
  Atomics.add(answered, 0, 1);
  Atomics.notify(answered, 0);
}
