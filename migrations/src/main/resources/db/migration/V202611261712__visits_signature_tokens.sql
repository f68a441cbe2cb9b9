-- Further tokens of a signing link, one for each mail that it went out with, each made when that mail was sent.
create table visit_signature_token (
    token_hash  bytea  primary key check (octet_length(token_hash) = 32),
    link_id     uuid   not null references visit_signature_link (id)
);
create index visit_signature_token_link_id on visit_signature_token (link_id);
