-- Water in what was loaded of a line; null where it is no water, and on sheets that were closed before this was kept.
alter table load_closing_line add column litres numeric check (litres >= 0);

-- What came back from a round, once its van was emptied; what turns up later is another return.
create table load_return (
    id           uuid         primary key,
    round_id     uuid         not null references round (id),
    person_id    uuid         not null references person (id),
    returned_at  timestamptz  not null
);
create index load_return_round_id on load_return (round_id, returned_at);
create index load_return_person_id on load_return (person_id);

-- Water in litres, everything else in the unit named. What was loaded, less what visits used and what returns told before,
-- should be what is told now; where it is not, somebody was asked.
create table load_return_line (
    return_id  uuid     not null references load_return (id),
    line       text     not null,
    place      integer  not null check (place >= 0),
    item       text     not null check (item <> ''),
    unit       text     not null check (unit in ('KILOGRAM', 'GRAM', 'LITRE', 'MILLILITRE', 'PIECE')),
    loaded     numeric  not null check (loaded >= 0),
    used       numeric  not null check (used >= 0),
    settled    numeric  not null,
    back       numeric  not null check (back >= 0),
    stays      numeric  not null check (stays >= 0),
    wasted     numeric  not null check (wasted >= 0),
    broken     numeric  not null check (broken >= 0),
    -- why that is not what it should be
    reason     text     check (reason <> ''),
    primary key (return_id, line)
);
