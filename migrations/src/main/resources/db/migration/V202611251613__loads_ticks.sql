-- The sheet itself is worked out from the round; what people did with it is kept.
create table load_tick (
    id               uuid        primary key,
    round_id         uuid        not null references round (id),
    line             text        not null,
    amount           numeric     not null,
    ticked           boolean     not null,
    person_id        uuid        not null references person (id),
    ticked_at        timestamptz not null
);
create index load_tick_round_id on load_tick (round_id, line, ticked_at);
create index load_tick_person_id on load_tick (person_id);
