// What the server sends and takes, as in the published OpenAPI document.
// Times are seconds on the named bounce's own time line; instants are RFC 3339 UTC.

export type Id = string;
export type Instant = string;
export type Role = 'engineer' | 'artist' | 'manager' | 'listener';

export type Act =
  | 'hear-private' | 'see-checks' | 'see-figures' | 'see-list' | 'write-note' | 'download' | 'upload-main'
  | 'upload-rough' | 'upload-stems' | 'set-sections' | 'edit-song' | 'send' | 'work-list' | 'close-round'
  | 'settle' | 'send-gathered' | 'say-fine' | 'approve' | 'manage-people' | 'edit-spec';

export interface Me { id: Id; name: string; email: string | null; owner: boolean; hasPassword?: boolean }

/** The signed-in person's place in a project. */
export interface You { member: Id; role: Role; lastWord: boolean; approver: boolean; mayWrite: boolean }

/** Whom a song waits for, and the one reason; `name` beside the id where the server knows it. */
export interface WaitingOn {
  person: Id | null;
  persons?: readonly Id[];
  name?: string | null;
  names?: readonly string[];
  /** The reason's name, kebab case; `reason` may be a sentence. */
  code?: string;
  reason: string;
  since: Instant | null;
}

export interface BoardRow {
  project: Id;
  song: Id;
  title: string;
  artist?: string;
  projectTitle?: string;
  latest: { bounce: Id; label: string | null } | null;
  waitingOn: WaitingOn | null;
  changedSinceHeard: boolean;
  /** The sections of the newest mix, against the one heard last; null where that is not known. */
  moved: readonly { name: string; from: number; to: number; moved: boolean }[] | null;
  /** By whom: names. */
  approved: boolean | readonly string[] | null;
  approvedBy?: readonly string[];
  round: number;
  includedRounds: number | null;
  due: string | null;
}

export interface AccessToken { id: Id; name: string; createdAt?: Instant; lastUsedAt?: Instant | null; token?: string }

export interface Project {
  id: Id;
  title: string;
  artist: string;
  gatherNotes: boolean;
  downloads: boolean;
  metersOpen: boolean;
  approvalStays: 'identical' | 'same-audio' | 'requantised';
  you: You;
  may: readonly Act[];
}

export interface DeliverySpec {
  ceilingDbtp?: number | null;
  ceilingDbfs?: number | null;
  minLufs?: number | null;
  maxLufs?: number | null;
  sampleRate?: number | null;
  bitDepth?: number | null;
  includedRounds?: number | null;
}

export interface Member {
  id: Id;
  person: Id;
  name: string;
  role: Role;
  lastWord: boolean;
  approver: boolean;
  mayWrite: boolean;
  identity: string;
}

/** A name to show, without any rights. */
export interface PersonName { member: Id; person: Id; name: string; role: Role }

export interface Invitation {
  id: Id;
  role: Role;
  email?: string | null;
  people?: number;
  used?: number;
  link?: string | null;
  token?: string;
  mailed?: boolean;
  thisComputerOnly?: boolean;
  expires: Instant;
}

export interface Acceptance { person: Id; member: Id; project: Id }

export interface SongSummary { id: Id; title: string; due: string | null; round?: number; roundState?: 'open' | 'closed'; includedRounds?: number | null; newest?: Newest | null; unusable?: number; waitingOn?: WaitingOn | null }

export interface Newest { bounce: Id; label: string | null; number: number; sent: boolean }

export interface Song {
  id: Id;
  project: Id;
  projectTitle: string;
  title: string;
  artist: string;
  tempoBpm: number | null;
  beatsPerBar: number | null;
  firstBarSeconds: number | null;
  /** Whether a MIDI file has given it its bars and beats. */
  tempoMap: boolean;
  due: string | null;
  round: number;
  roundState: 'open' | 'closed';
  includedRounds: number | null;
  waitingOn: WaitingOn | null;
  newest: Newest | null;
  gatherNotes: boolean;
  /** How many people have notes that have not been handed over. */
  writing: number;
  metersOpen: boolean;
  you: You;
  may: readonly Act[];
}

export type BounceState = 'received' | 'measuring' | 'ready' | 'failed';
export type Kind =
  | 'main' | 'instrumental' | 'a-cappella' | 'tv' | 'clean' | 'vocal-up' | 'vocal-down' | 'loud-copy'
  | 'rough' | 'reference' | 'master';

export interface BounceFile {
  name: string; bytes: number; sha256: string; container: string | null; codec: string | null;
  sampleRate: number | null; bitDepth: number | null; significantBits: number | null;
  channels: number | null; frames: number | null; seconds: number | null; lossy: boolean | null;
  pcmSha256: string | null;
}

export interface Defect { code: string; detail: string; affectsSound: boolean; from?: number; to?: number }

export interface Bounce {
  id: Id;
  number: number;
  label: string | null;
  /** The name it was brought with, for whoever sends it. */
  proposedLabel?: string | null;
  kind: Kind;
  of: Id | null;
  sent: boolean;
  sentAt: Instant | null;
  /** The line it was sent with. */
  message: string | null;
  state: BounceState;
  progress: number | null;
  problem: { code: string; detail: string } | string | null;
  file: BounceFile | null;
  defects: readonly Defect[];
  uploader: Id;
  uploadedAt: Instant;
}

/** A bounce asked for by itself: also what can be said of it beside the others. */
export interface BounceAlone extends Bounce {
  nameRemarks?: ReadonlyArray<{ code: string; detail: string; with: Id | null }> | null;
  /** The bounce that looks like the other channel of this one. */
  pairOffer?: { with: Id; title: string; side: 'left' | 'right'; possible: boolean; words: string } | null;
}

/** Sections that could be kept, and where they come from. */
export interface SectionProposal { source: string; words: string; sections: readonly { name: string; from: number; to: number }[] }
/** Bars and beats of a song on one of its mixes. */
export interface TempoMap {
  bounce: Id; shownOn: Id; placed: boolean; at: number; remark: string | null;
  tempos: readonly { at: number; bar: number; beat: number; bpm: number }[];
  meters: readonly { at: number; bar: number; beats: number; unit: number }[];
  markers: readonly { at: number; bar: number; beat: number; name: string }[];
  bars: readonly { bar: number; beats: readonly number[] }[];
}
export interface Section { name: string; from: number | null; to: number | null; sure?: number }

export interface Band { centreHz: number; levelDb: number | null }

export interface Figures {
  integratedLufs: number | null; ungatedLufs: number | null; shareLufs: number | null;
  dualMonoLufs?: number | null; loudnessRangeLu: number | null; loudnessRangeStable: boolean;
  maxMomentaryLufs: number | null; maxShortTermLufs: number | null; maxShortTermAt: number | null;
  truePeakDbtp: number | null; truePeakAt: number | null; samplePeakDbfs: number | null; samplePeakAt: number | null;
  clippedRuns: number; crestDb: number | null; peakToLoudnessDb: number | null;
  minPeakToShortTermDb: number | null; minPeakToShortTermAt: number | null; dcOffset: number | null;
  correlation: number | null; sideToMidDb: number | null; balanceDb: number | null; monoLossDb: number | null;
  bands: readonly Band[];
}

export interface Measurements {
  whole: Figures;
  sections: ReadonlyArray<Figures & { name: string; from: number; to: number }>;
  loudest: { section: string | null; from: number; to: number } | null;
}

export type Standing = 'agreement' | 'standard' | 'recommendation' | 'habit';

export interface Finding {
  code: string; severity: string; detail: string; from: number | null; to: number | null;
  value: number | null; limit: number | null;
  /** What the limit stands on, and the short name of the standard. */
  standing?: Standing | null; source?: string | null;
}

/** Figures over time: one value a step; a loudness window lies at its centre. */
export interface Series {
  from: number; to: number; stepSeconds: number; atSeconds: readonly number[];
  momentaryLufs: readonly (number | null)[]; shortTermLufs: readonly (number | null)[];
  truePeakDbtp: readonly (number | null)[]; samplePeakDbfs: readonly (number | null)[];
  correlation: readonly (number | null)[];
}

/** A third octave as it is, and re the stretch's own loudness. */
export interface ShapedBand { centreHz: number; levelDb: number | null; shapeDb: number | null }
export interface BandsOf {
  whole: readonly ShapedBand[];
  sections: ReadonlyArray<{ name: string; from: number; to: number; bands: readonly ShapedBand[] }>;
}

/** Where a mix is loudest, without a figure. */
export interface InWords { words: string; section: string | null; from: number | null; to: number | null }

/** One agreed figure held against a mix. */
export interface Agreed { field: keyof DeliverySpec; agreed: number; found: number | null; met: boolean | null; words: string }

export interface Preset {
  id: string; name: string; words: string;
  figures: ReadonlyArray<{ field: keyof DeliverySpec; value: number; source: string; date: string | null; standing: Standing; note: string }>;
}

export type Likeness = 'identical' | 'same-audio' | 'requantised' | 'level-only' | 'sections' | 'rework' | 'not-comparable';
export type Difference = 'unchanged' | 'changed' | 'uncertain' | 'only-here' | 'only-there';

export interface TimePiece { from: number; to: number; otherFrom: number; otherTo: number; sure: number }
export interface Stretch { from: number; to: number }
export interface BandChange { centreHz: number; changeDb: number | null; residualDb: number | null }
export interface ElementChange {
  element: string; gainChangeDb: number | null; plusMinusDb: number | null; explained: number | null;
  panChange: number | null; lagSeconds: number | null; present: boolean;
}
export interface SectionChange {
  name: string; from: number | null; to: number | null; otherFrom: number | null; otherTo: number | null;
  difference: Difference; loudnessChangeLu: number | null; residualDb: number | null;
  bands: readonly BandChange[]; elements?: readonly ElementChange[];
}
export interface Comparison {
  likeness: Likeness;
  causes: ReadonlyArray<{ code: string; detail: string; value: number | null }>;
  offsetSeconds: number | null; speedRatio: number | null; polarity: number; gainDb: number | null;
  timeMap: readonly TimePiece[]; onlyHere: readonly Stretch[]; onlyThere: readonly Stretch[];
  floorDb: number | null;
  whole: { loudnessChangeLu: number | null; residualDb: number | null; bands: readonly BandChange[]; elements?: readonly ElementChange[] };
  sections: readonly SectionChange[];
}

/** One place where a pass differs from an earlier mix; a time is null where it is not in that mix. */
export interface RecallPlace {
  name: string; words: string; from: number | null; to: number | null; otherFrom: number | null; otherTo: number | null;
}
/** What a pass is beside an earlier mix, in words. */
export interface Recall { likeness: Likeness; words: string; places: readonly RecallPlace[] }

export type BlindChoice = 'first' | 'second' | 'no-difference';
/** Two mixes at one place without their names; what the reader may not know is absent. */
export interface BlindPick {
  id: Id; place: string; offeredBy: string; at: Instant; open: boolean; mayEnd: boolean;
  ear?: Id; picked?: BlindChoice; changes: readonly Id[]; missing?: readonly string[];
  mixes?: ReadonlyArray<{ bounce: Id; label: string }>;
  picks?: ReadonlyArray<{ person: Id; name: string; mix?: { bounce: Id; label: string } | null }>;
}
/** A listening test of the reader's own; the result is absent until the last trial is answered. */
export interface AbxTest {
  id: Id; place: string; a: { bounce: Id; label: string }; b: { bounce: Id; label: string };
  trials: number; answered: number; result?: { right: number; probability: number; words: string };
}

/** Where the music of one bounce lies on another, for all who may hear both. */
export interface TimeMap {
  offsetSeconds: number; speedRatio: number; timeMap: readonly TimePiece[];
  onlyHere: readonly Stretch[]; onlyThere: readonly Stretch[]; sure: number;
}

export interface Listening {
  state: 'ready' | 'preparing'; progress: number | null; sampleRate: number; channels: number; frames: number;
  quality: 'full' | 'light'; segments: ReadonlyArray<{ index: number; fromFrame: number; frames: number }>;
}

export interface LevelMatch { gainDb: number; otherGainDb: number; differenceLu: number; words: string }
export interface Outline { seconds: number; points: readonly number[] }
export interface Hearing { heard: boolean; at: Instant | null }

export type Amount = { value: number; to?: number; unit: string } | { word: string };
export type Where = readonly string[] | { from: number; to: number };

export interface AskedChange {
  element: string; aspect: string; direction: string; amount: Amount | null; where: Where;
  question: string | boolean | null; text: string;
}
export interface AskedKeep { element: string; where: Where; text?: string }
export interface NoteReading { changes: readonly AskedChange[]; keeps: readonly AskedKeep[]; remarks: ReadonlyArray<string | { text: string }> }

export interface Note {
  id: Id; author: Id | null; authorName?: string; writtenBy?: Id; text: string; bounce: Id; at: Instant;
  /** When it was said elsewhere, as written there. */
  saidWhen: string | null; memo: Memo | null; from: number | null; to: number | null; shownFrom: number | null; shownTo: number | null;
  place: 'exact' | 'section' | 'song'; changes: readonly Id[]; keeps: readonly Id[];
  /** Pieces of its words that went into none of them. */
  unread: readonly string[];
}
/** What was spoken; without a line it is still to be listened to. */
export interface Memo { seconds: number; type: string; line: string | null }
export interface NoteSent { id: Id; changes: readonly Id[]; keeps: readonly Id[]; questions: readonly Id[] }

export interface Question {
  id: Id; note: Id; changes: readonly Id[]; to: Id; toName?: string; text: string;
  choices: ReadonlyArray<{ id: Id; text: string }>; answer: string | { text?: string; choice?: Id } | null;
}

/** {@code afterEnd}: its place lies after the end of the mix it was written for. */
export interface Keep { id: Id; element: string; where: Where; afterEnd: boolean; text: string; note: Id }

export type ChangeState = 'unclear' | 'asked' | 'done' | 'good' | 'left' | 'withdrawn' | 'followed';
export type ChangeAnswer = 'as-asked' | 'differently' | 'tried' | 'cannot' | 'need-files' | 'new-work';
export type Seen = 'as-asked' | 'partly' | 'too-far' | 'opposite' | 'not-seen' | 'cannot-tell';
export type Says = 'good' | 'more' | 'too-much' | 'halfway' | 'put-back';

export interface Verdict { bounce: Id; seen: Seen; measuredDb: number | null; deliveredDb: number | null; detail: string }

export interface Change {
  id: Id; etag: string; element: string; aspect: string; direction: string; amount: Amount | null; where: Where;
  /** Its place lies after the end of the mix it was written for. */
  afterEnd: boolean;
  text: string; note: Id; author: Id; authorName?: string; bounce: Id; state: ChangeState;
  answer: ChangeAnswer | null; doneIn: Id | null; follows: Id | null; conflictsWith: readonly Id[];
  /** Whether it was joined to others by hand, to be worked as one. */
  mergedWith: readonly Id[]; joined: boolean; newWork: NewWork | null; round: number; reason?: string | null;
  /** For engineers, of one change alone. */
  usual?: UsualAmount; verdicts?: readonly Verdict[];
}
export type NewWork = 'take' | 'part' | 'form';
/** What words of degree usually mean, dB. */
export interface UsualAmount { fromDb: number; toDb: number; learned: boolean; good: readonly { person: Id; name: string; db: number }[] }

export interface OpenPoint { code: string; detail: string; passable: boolean }
export type Decision = 'approve' | 'fine-by-me' | 'not-yet' | 'stop' | 'finished';
export interface Approval {
  id: Id; by: Id; byName?: string; identity: string; decision: Decision; comment: string | null;
  pcmSha256: string; heard: 'lossless' | 'light' | null; at: Instant;
  state: 'valid' | 'pending' | 'lapsed' | 'withdrawn'; from: Id | null;
}
export interface ApprovalMade { id: Id; state: string; head: string }

export interface HistoryLine {
  seq: number; at: Instant; by: Id | null; byName?: string; act: string; subject: string | null;
  detail: unknown; previousHash: string | null; hash: string;
}

export type EventType = 'bounce' | 'progress' | 'sent' | 'note' | 'question' | 'change' | 'approval' | 'people';
export interface SongEvent { seq: number; type: EventType; id: Id; bounce?: Id; change?: Id; at: Instant; progress?: number }
