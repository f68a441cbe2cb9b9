-- Which version of a round a device took along, and from when to when it was given that one: so it can be told what its
-- person saw at what time.
create table round_taken (
    round_id        uuid        not null references round (id) on delete cascade,
    device          text        not null,
    person_id       uuid        not null references person (id),
    round_version   integer     not null,
    first_at        timestamptz not null,
    last_at         timestamptz not null check (last_at >= first_at),
    primary key (round_id, device, person_id, round_version)
);
create index round_taken_person_id on round_taken (person_id);
