-- Rinsed, washed, rinsed and dried: only then does a container hold fresh water after salt water, or salt water after fresh.
create table container_wash (
    id             uuid        primary key,
    container_id   uuid        not null references water_container (id),
    from_role      text        not null check (from_role in ('FRESH', 'SALT')),
    to_role        text        not null check (to_role in ('FRESH', 'SALT') and to_role <> from_role),
    person_id      uuid        not null references person (id),
    washed_on      date        not null,
    recorded_at    timestamptz not null
);
create index container_wash_container_id on container_wash (container_id);
create index container_wash_person_id on container_wash (person_id);
