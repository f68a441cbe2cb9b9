-- Results of the bench that somebody kept with a water system; they stay as they were worked out.
create table calculation_note (
    id              uuid        primary key,
    water_system_id uuid        not null references water_system (id),
    person_id       uuid        not null references person (id),
    noted_at        timestamptz not null,
    title           text        not null check (title <> ''),
    calculator      text        not null check (calculator <> ''),
    -- inputs as they were given, and the answer of the calculator
    inputs          json        not null,
    answer          json        not null
);
create index calculation_note_water_system_id on calculation_note (water_system_id, noted_at);
create index calculation_note_person_id on calculation_note (person_id);
