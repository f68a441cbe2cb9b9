-- What a person may do beside the usual; a person of whom nobody has said anything has no row.
create table person_skills (
    person_id   uuid    primary key references person (id),
    electrician boolean not null,
    diving      boolean not null,
    version     integer not null
);

-- Days on which a person does not work, the last one included.
create table absence (
    id        uuid primary key,
    person_id uuid not null references person (id),
    first_on  date not null,
    last_on   date not null check (last_on >= first_on),
    reason    text check (reason <> '')
);
create index absence_person_id on absence (person_id);

-- Who rides along with a van's technician; a van of which nobody has said anything drives from Monday to Friday.
create table van_crew (
    van_id           uuid    primary key references van (id),
    second_person_id uuid    references person (id),
    version          integer not null
);

-- When a van is out on a weekday (1 is Monday); it does not drive on the others.
create table van_day (
    van_id    uuid     not null references van_crew (van_id),
    weekday   smallint not null check (weekday between 1 and 7),
    starts_at time     not null,
    ends_at   time     not null check (ends_at > starts_at),
    primary key (van_id, weekday)
);
