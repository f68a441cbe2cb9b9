alter table standard
    add column kind text not null default 'OTHER' check (kind in ('PURE_WATER', 'SEAWATER', 'SODIUM_CHLORIDE', 'CONDUCTIVITY',
        'PH_BUFFER', 'REFERENCE_THERMOMETER', 'AIR_SATURATED_WATER', 'KNOWN_CONCENTRATION', 'OTHER')),
    -- how many days it may be used once it was opened
    add column open_days integer check (open_days between 1 and 3660),
    -- since when a person does not believe it any more, and why
    add column suspicious_since date,
    add column suspicious_because text check (suspicious_because <> ''),
    add check ((suspicious_since is null) = (suspicious_because is null));
update standard
set kind = case
    when quantity = 'SALINITY' and value = 0 then 'PURE_WATER'
    when quantity = 'SALINITY' then 'SEAWATER'
    when quantity = 'PH' then 'PH_BUFFER'
    else 'OTHER'
end;
alter table standard alter column kind drop default;
