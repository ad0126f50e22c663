-- People, how they sign in, projects and who belongs to them.
create table person (
  id text primary key,
  version integer not null,
  name text not null,
  email text unique,
  email_confirmed boolean not null default false,
  password_hash text,
  owner boolean not null default false,
  created_at timestamptz not null
);

create table web_session (
  id text primary key,
  token_hash text not null unique,
  person text not null references person (id),
  created_at timestamptz not null,
  last_seen_at timestamptz not null
);
create index web_session_person on web_session (person);

create table access_token (
  id text primary key,
  token_hash text not null unique,
  person text not null references person (id),
  name text not null,
  created_at timestamptz not null
);
create index access_token_person on access_token (person);

-- purpose: set-up (makes the owner) or sign-in (signs the person in on another device)
create table one_time_link (
  id text primary key,
  token_hash text not null unique,
  purpose text not null check (purpose in ('set-up', 'sign-in')),
  person text references person (id),
  expires_at timestamptz not null,
  used_at timestamptz
);

create table sign_in_failure (
  id bigint generated always as identity primary key,
  subject text not null,
  at timestamptz not null
);
create index sign_in_failure_subject on sign_in_failure (subject, at);

create table project (
  id text primary key,
  version integer not null,
  title text not null,
  artist text not null,
  created_by text not null references person (id),
  created_at timestamptz not null,
  gather_notes boolean not null,
  downloads boolean not null,
  meters_open boolean not null,
  approval_stays text not null check (approval_stays in ('identical', 'same-audio', 'requantised')),
  ceiling_dbtp double precision,
  ceiling_dbfs double precision,
  min_lufs double precision,
  max_lufs double precision,
  sample_rate integer,
  bit_depth integer,
  included_rounds integer
);

create table member (
  id text primary key,
  version integer not null,
  project text not null references project (id),
  person text not null references person (id),
  role text not null check (role in ('engineer', 'artist', 'manager', 'listener')),
  last_word boolean not null,
  approver boolean not null,
  may_write boolean not null,
  identity text not null,
  joined_at timestamptz not null,
  left_at timestamptz
);
-- A person is an active member of a project once; those who left stay on the record.
create unique index member_once on member (project, person) where left_at is null;
create index member_person on member (person);

create table invitation (
  id text primary key,
  version integer not null,
  token_hash text not null unique,
  project text not null references project (id),
  email text,
  role text not null check (role in ('engineer', 'artist', 'manager', 'listener')),
  people integer not null check (people >= 1),
  used integer not null,
  mailed boolean not null,
  invited_by text not null references person (id),
  created_at timestamptz not null,
  expires_at timestamptz not null,
  revoked_at timestamptz
);

create table idempotency (
  person text not null references person (id),
  key text not null,
  request text not null,
  status integer,
  body text,
  created_at timestamptz not null,
  primary key (person, key)
);
