-- A check keeps every reading, before and after adjusting; what was one figure is the first of them.
alter table calibration
    alter column as_found type numeric[] using array[as_found],
    alter column as_left type numeric[] using array[as_left],
    add column instrument_temperature_c numeric check (instrument_temperature_c between -2 and 60),
    add column adjusted text check (adjusted <> ''),
    add check (cardinality(as_found) between 1 and 10),
    -- none if nothing was adjusted
    add check (cardinality(as_left) between 0 and 10);
