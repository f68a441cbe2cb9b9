-- Calendars that a reader fetches by an address nobody can guess; of the address only a hash is kept.
create table calendar_feed (
    id          uuid        primary key,
    kind        text        not null check (kind in ('TECHNICIAN', 'VAN', 'CLIENT')),
    -- the person, van or client
    subject_id  uuid        not null,
    token_hash  bytea       not null unique check (octet_length(token_hash) = 32),
    made_by     uuid        not null references person (id),
    made_at     timestamptz not null,
    revoked_at  timestamptz
);

-- What a calendar last told its reader, so that a change raises the sequence and what is gone is told as cancelled.
create table calendar_event (
    id          uuid        primary key,
    feed_id     uuid        not null references calendar_feed (id),
    -- the first of the planned visits that it is for
    visit_id    uuid        not null,
    starts_on   date        not null,
    -- in the business's zone; both missing for a whole day
    starts_at   time,
    ends_at     time,
    summary     text        not null,
    location    text,
    description text,
    sequence    integer     not null check (sequence >= 0),
    cancelled   boolean     not null,
    changed_at  timestamptz not null,
    unique (feed_id, visit_id),
    check ((starts_at is null) = (ends_at is null))
);
