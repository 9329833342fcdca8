import {
  type CancellationToken,
  CodeLensRefreshRequest,
  type Connection,
  type Diagnostic,
  DiagnosticRefreshRequest,
  InlayHintRefreshRequest,
  type WorkspaceDocumentDiagnosticReport,
} from 'vscode-languageserver';
import type { CheckedFile, Finding } from '../engine/index.ts';
import type { Client } from './client.ts';
import { type DiagnosticNames, toDiagnostic } from './diagnostics.ts';
import type { OpenDocument } from './documents.ts';
import type { Workspace } from './workspace.ts';

/** Brings findings to the client: pushed, each with the version that it rests on, or handed out when asked for. */
export class Publisher {
  readonly #connection: Connection;
  readonly #workspace: Workspace;
  readonly #client: Client;
  readonly #names: DiagnosticNames;
  /** What each open document was last answered with. */
  readonly #answered = new Map<string, CheckedFile | undefined>();
  readonly #due = new Set<string>();
  readonly #pushed = new Set<string>();
  readonly #ids = new WeakMap<object, string>();
  #nextId = 1;

  constructor(connection: Connection, workspace: Workspace, client: Client, names: DiagnosticNames) {
    this.#connection = connection;
    this.#workspace = workspace;
    this.#client = client;
    this.#names = names;
  }

  /** An open or a change is answered in any case, also when nothing changes by it. */
  owe(path: string): void {
    this.#due.add(path);
  }

  forget({ path, uri }: OpenDocument): void {
    this.#due.delete(path);
    this.#answered.delete(path);
    if (!this.#client.pulls) this.#push(uri, []);
  }

  /** Brings what is owed, and what changed by other documents' doing. */
  publishOpen(): void {
    let othersChanged = false;
    for (const open of this.#workspace.open.all()) {
      const file = this.#workspace.check(open.path);
      const isOwed = this.#due.delete(open.path);
      const isNews = this.#answered.get(open.path) !== file;
      if (!isOwed && !isNews) continue;
      this.#answered.set(open.path, file);
      othersChanged ||= !isOwed;
      if (!this.#client.pulls) this.#push(open.uri, this.#diagnostics(file?.findings ?? []), open.text.version);
    }
    if (othersChanged) this.#refresh();
  }

  publishClosed(paths: readonly string[]): void {
    if (this.#client.pulls) {
      this.#refresh();
      return;
    }
    const known = new Map([...this.#workspace.closed.all()].map((each) => [each.path, each]));
    for (const path of paths) {
      if (this.#workspace.open.get(path) !== undefined) continue;
      const findings = known.get(path)?.findings ?? [];
      const uri = this.#workspace.open.uriOf(path);
      if (findings.length > 0 || this.#pushed.has(uri)) this.#push(uri, this.#diagnostics(findings));
    }
  }

  /** Answers a request for the diagnostics of one document. */
  report(path: string, previous: string | undefined) {
    const file = this.#workspace.check(path);
    this.#answered.set(path, file);
    this.#due.delete(path);
    const result = file ?? this.#workspace.closed.get(path);
    const resultId = this.#idOf(result ?? NOT_OURS);
    if (resultId === previous) return { kind: 'unchanged' as const, resultId };
    return { kind: 'full' as const, resultId, items: this.#diagnostics(result?.findings ?? []) };
  }

  /** Reports on all documents that no editor holds; those that are as the client knows them stay unsaid. */
  reportClosed(previous: ReadonlyMap<string, string>, token: CancellationToken): WorkspaceDocumentDiagnosticReport[] {
    const reports: WorkspaceDocumentDiagnosticReport[] = [];
    const known = new Set<string>();
    for (const closed of this.#workspace.closed.all()) {
      if (token.isCancellationRequested) break;
      const uri = this.#workspace.open.uriOf(closed.path);
      known.add(uri);
      const resultId = this.#idOf(closed);
      if (previous.get(uri) === resultId) continue;
      reports.push({ kind: 'full', uri, version: null, resultId, items: this.#diagnostics(closed.findings) });
    }
    for (const { uri } of this.#workspace.open.all()) known.add(uri);
    const gone = [...previous.keys()].filter((uri) => !known.has(uri) && previous.get(uri) !== GONE);
    return [
      ...reports,
      ...gone.map((uri) => ({ kind: 'full' as const, uri, version: null, resultId: GONE, items: [] })),
    ];
  }

  #diagnostics(findings: readonly Finding[]): Diagnostic[] {
    return findings.map((finding) => toDiagnostic(finding, this.#names));
  }

  #push(uri: string, diagnostics: Diagnostic[], version?: number): void {
    if (diagnostics.length > 0) this.#pushed.add(uri);
    else this.#pushed.delete(uri);
    void this.#connection.sendDiagnostics({ uri, diagnostics, ...(version !== undefined && { version }) });
  }

  /** What the client asked for may be another by now: findings, and what stands above and beside the lines. */
  #refresh(): void {
    const { pulls, refreshes } = this.#client;
    if (pulls && refreshes.diagnostics) this.#ask(DiagnosticRefreshRequest.method);
    if (refreshes.lenses) this.#ask(CodeLensRefreshRequest.method);
    if (refreshes.hints) this.#ask(InlayHintRefreshRequest.method);
  }

  /** A client that refuses after all has nothing to show anew. */
  #ask(method: string): void {
    this.#connection.sendRequest(method).catch(() => undefined);
  }

  /** Results are the same object as long as nothing that they rest on changes. */
  #idOf(result: object): string {
    const id = this.#ids.get(result) ?? String(this.#nextId++);
    this.#ids.set(result, id);
    return id;
  }
}

const NOT_OURS = {};
const GONE = 'gone';
