-- The bytes of photos and PDFs live here, so that every instance sees them and one backup holds all.
create table stored_file (
    id             uuid        primary key,
    name           text        not null check (name <> ''),
    media_type     text        not null check (media_type <> ''),
    sha256         bytea       not null check (octet_length(sha256) = 32),
    size_bytes     bigint      not null check (size_bytes >= 0),
    content        bytea       not null,
    stored_by      uuid        references person (id),
    stored_at      timestamptz not null,
    check (octet_length(content) = size_bytes)
);
create index stored_file_stored_by on stored_file (stored_by);

-- A document such as a visit's report, with every version that was ever made of it.
create table document_version (
    id             uuid        primary key,
    kind           text        not null check (kind <> ''),
    subject_id     uuid        not null,
    number         integer     not null check (number >= 1),
    file_id        uuid        not null references stored_file (id),
    made_by        uuid        references person (id),
    made_at        timestamptz not null,
    unique (kind, subject_id, number)
);
create index document_version_file_id on document_version (file_id);
create index document_version_made_by on document_version (made_by);

-- Mail that left or waits; the job that sends it is enqueued in the transaction that wrote the row.
create table outgoing_mail (
    id             uuid        primary key,
    recipient      text        not null check (recipient <> ''),
    subject        text        not null,
    body           text        not null,
    file_id        uuid        references stored_file (id),
    queued_by      uuid        references person (id),
    queued_at      timestamptz not null,
    sent_at        timestamptz,
    failure        text
);
create index outgoing_mail_file_id on outgoing_mail (file_id);
create index outgoing_mail_queued_by on outgoing_mail (queued_by);

-- db-scheduler's table
create table scheduled_tasks (
    task_name            text        not null,
    task_instance        text        not null,
    task_data            bytea,
    execution_time       timestamptz not null,
    picked               boolean     not null,
    picked_by            text,
    last_success         timestamptz,
    last_failure         timestamptz,
    consecutive_failures integer,
    last_heartbeat       timestamptz,
    version              bigint      not null,
    priority             smallint,
    state                text,
    primary key (task_name, task_instance)
);
create index scheduled_tasks_execution_time on scheduled_tasks (execution_time);
create index scheduled_tasks_last_heartbeat on scheduled_tasks (last_heartbeat);
create index scheduled_tasks_priority on scheduled_tasks (priority desc, execution_time asc);
