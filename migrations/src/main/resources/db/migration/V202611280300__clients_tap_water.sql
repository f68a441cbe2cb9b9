-- How hard the tap water at a site was found to be. The latest of a site counts; none is changed or removed.
create table tap_water (
    id           uuid           primary key,
    site_id      uuid           not null references site (id),
    measured_on  date           not null,
    hardness     numeric(7, 2)  not null check (hardness >= 0),
    unit         text           not null check (unit in ('dGH', 'mg/L CaCO3')),
    person_id    uuid           not null references person (id),
    written_at   timestamptz    not null
);
create index tap_water_site_id on tap_water (site_id, measured_on desc, written_at desc);
create index tap_water_person_id on tap_water (person_id);
