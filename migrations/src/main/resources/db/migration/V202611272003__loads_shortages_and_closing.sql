-- Of a line that is in the van, how much is not, and what goes instead of that.
alter table load_tick add column missing numeric not null default 0 check (missing >= 0 and missing <= amount);
alter table load_tick alter column missing drop default;
alter table load_tick add column instead text check (instead <> '');

-- A sheet that somebody closed before the van left; closed again it is another one. What stood on it is kept in words, since
-- the sheet itself follows from the round.
create table load_closing (
    id             uuid         primary key,
    round_id       uuid         not null references round (id),
    round_version  integer      not null,
    person_id      uuid         not null references person (id),
    closed_at      timestamptz  not null
);
create index load_closing_round_id on load_closing (round_id, closed_at);
create index load_closing_person_id on load_closing (person_id);

create table load_closing_line (
    closing_id  uuid     not null references load_closing (id),
    line        text     not null,
    place       integer  not null check (place >= 0),
    item        text     not null check (item <> ''),
    planned     numeric  not null check (planned > 0),
    loaded      numeric  not null check (loaded >= 0 and loaded <= planned),
    safety      boolean  not null,
    person_id   uuid     references person (id),
    ticked_at   timestamptz,
    instead     text     check (instead <> ''),
    -- why it was left, where it was left
    reason      text     check (reason <> ''),
    primary key (closing_id, line),
    check ((person_id is null) = (ticked_at is null)),
    check (not safety or loaded > 0 or reason is not null)
);
create index load_closing_line_person_id on load_closing_line (person_id);
