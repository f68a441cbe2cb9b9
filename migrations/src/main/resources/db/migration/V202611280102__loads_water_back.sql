-- What became of water that came back: it waits in its drums, it was poured away, or it went into a vat.
alter table load_return_line
    add column goes    text check (goes in ('KEPT', 'AWAY', 'VAT')),
    add column vat_id  uuid references water_system (id),
    add constraint load_return_line_goes check ((goes is not distinct from 'VAT') = (vat_id is not null));
create index load_return_line_vat_id on load_return_line (vat_id);

-- Why so much water of a kind is not where it should be, as somebody said of a depot and some days.
create table water_difference (
    id          uuid        primary key,
    depot_id    uuid        not null references depot (id),
    from_day    date        not null,
    -- the first day after them
    until_day   date        not null,
    salted      boolean     not null,
    litres      double precision not null,
    reason      text        not null check (reason <> ''),
    person_id   uuid        not null references person (id),
    said_at     timestamptz not null,
    check (from_day < until_day)
);
create index water_difference_depot_id on water_difference (depot_id, from_day);
create index water_difference_person_id on water_difference (person_id);
