-- Every entry as it arrived, with the answer that was given: the same id gets the same answer for ever.
create table inbox_entry (
    id               uuid        primary key,
    kind             text        not null,
    subject_id       uuid,
    device           text        not null,
    sequence         bigint      not null,
    device_time      timestamptz,
    device_offset    text,
    canonical_hash   bytea       not null check (octet_length(canonical_hash) = 32),
    content          text        not null,
    author_id        uuid        not null references person (id),
    received_at      timestamptz not null,
    status           text        not null check (status in ('applied', 'conflict', 'refused', 'waiting')),
    answer           jsonb       not null
);
create index inbox_entry_author_id on inbox_entry (author_id);
create index inbox_entry_device on inbox_entry (device, sequence);
