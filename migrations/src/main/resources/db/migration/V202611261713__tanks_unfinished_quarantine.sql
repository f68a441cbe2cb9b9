-- Quarantines that were left for another class of sick systems and have not been released.
create table quarantine_left (
    water_system_id  uuid         primary key references water_system (id),
    left_on          date         not null
);
