-- What stands open of entries is looked for by what it is about.
create index inbox_entry_open on inbox_entry (subject_id) where status in ('conflict', 'refused');
create index visit_entry_contested on visit_entry (visit_id, field) where not counts;

-- A refused entry that somebody has looked at and needs no more.
alter table inbox_entry
    add column settled_at   timestamptz,
    add column settled_by   uuid references person (id),
    add column settled_note text check (settled_note <> '');
create index inbox_entry_settled_by on inbox_entry (settled_by);

-- A tablet or another device that takes a day along. It names itself by an id that it made.
create table tablet_device (
    id              text        primary key,
    person_id       uuid        not null references person (id),
    description     text        not null,
    first_seen_at   timestamptz not null,
    last_seen_at    timestamptz not null,
    -- what it holds: the newest day that it took along, and how many entries it had not sent
    day_taken       date,
    day_taken_at    timestamptz,
    waiting         integer     not null default 0 check (waiting >= 0),
    barred_at       timestamptz,
    barred_by       uuid        references person (id),
    barred_because  text        check (barred_because <> ''),
    check ((barred_at is null) = (barred_because is null))
);
create index tablet_device_person_id on tablet_device (person_id);
create index tablet_device_barred_by on tablet_device (barred_by);
