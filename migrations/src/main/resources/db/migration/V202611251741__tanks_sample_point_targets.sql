-- A target that belongs to one sample point and goes before that of its system: water before, within and after a plant.
create table sample_point_target (
    sample_point     uuid    not null references sample_point (id) on delete cascade,
    quantity         text    not null,
    low              numeric,
    high             numeric,
    unit             text    not null,
    gravity_reference text,
    primary key (sample_point, quantity),
    check (low is not null or high is not null),
    check (low <= high),
    check ((unit = 'SG') = (gravity_reference is not null))
);
