-- The queue of the job engine, with its own column names.
create table scheduled_tasks (
  task_name text not null,
  task_instance text not null,
  task_data bytea,
  execution_time timestamptz not null,
  picked boolean not null,
  picked_by text,
  last_success timestamptz,
  last_failure timestamptz,
  consecutive_failures int,
  last_heartbeat timestamptz,
  version bigint not null,
  priority smallint,
  state text,
  primary key (task_name, task_instance)
);
create index scheduled_tasks_due on scheduled_tasks (execution_time);
create index scheduled_tasks_heartbeat on scheduled_tasks (last_heartbeat);

-- What people are told of a job; stays when the queue has forgotten it.
create table jobs (
  name text not null,
  subject text not null,
  state text not null check (state in ('WAITING', 'RUNNING', 'DONE', 'FAILED')),
  progress double precision not null default 0 check (progress between 0 and 1),
  attempts int not null default 0,
  last_reason text,
  changed_at timestamptz not null default now(),
  primary key (name, subject)
);
create index jobs_unfinished on jobs (name, subject) where state in ('WAITING', 'RUNNING');
