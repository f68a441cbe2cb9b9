create table sample_vat (
    id uuid primary key,
    version integer not null,
    name text not null,
    net_volume_l double precision not null,
    price numeric(12, 2) not null,
    state text not null,
    filled_at timestamptz not null,
    next_clean date not null,
    opens time not null,
    note text
);

create table sample_vat_part (
    sample_vat uuid not null references sample_vat (id),
    sample_vat_key integer not null,
    label text not null,
    primary key (sample_vat, sample_vat_key)
);
