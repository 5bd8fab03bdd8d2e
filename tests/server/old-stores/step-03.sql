CREATE TABLE public.analyses (
    key text NOT NULL,
    version text NOT NULL,
    facts jsonb NOT NULL,
    account bytea NOT NULL,
    created_at timestamp with time zone DEFAULT now() NOT NULL
);
CREATE TABLE public.charts (
    id text NOT NULL,
    name text NOT NULL,
    text text NOT NULL,
    created_at timestamp with time zone DEFAULT now() NOT NULL,
    deleted_at timestamp with time zone
);
CREATE TABLE public.corpora (
    id text NOT NULL,
    name text NOT NULL,
    note text DEFAULT ''::text NOT NULL,
    created_at timestamp with time zone DEFAULT now() NOT NULL,
    deleted_at timestamp with time zone
);
CREATE TABLE public.ideas (
    id text NOT NULL,
    name text NOT NULL,
    pattern jsonb NOT NULL,
    created_at timestamp with time zone DEFAULT now() NOT NULL,
    deleted_at timestamp with time zone
);
CREATE TABLE public.ideas_found (
    key text NOT NULL,
    viewpoint text NOT NULL,
    pattern text NOT NULL,
    length integer NOT NULL,
    occurrences integer NOT NULL
);
CREATE TABLE public.items (
    id text NOT NULL,
    job_id text NOT NULL,
    corpus_id text NOT NULL,
    place integer NOT NULL,
    file_name text NOT NULL,
    source text,
    title text NOT NULL,
    player text,
    played_on date,
    chart_text text,
    options jsonb NOT NULL,
    tags text[] NOT NULL,
    state text DEFAULT 'waiting'::text NOT NULL,
    attempts integer DEFAULT 0 NOT NULL,
    problem jsonb,
    finished_at timestamp with time zone,
    CONSTRAINT items_state_check CHECK ((state = ANY (ARRAY['waiting'::text, 'done'::text, 'failed'::text, 'cancelled'::text])))
);
CREATE TABLE public.jobs (
    id text NOT NULL,
    corpus_id text NOT NULL,
    cancelled boolean DEFAULT false NOT NULL,
    total integer NOT NULL,
    created_at timestamp with time zone DEFAULT now() NOT NULL,
    finished_at timestamp with time zone
);
CREATE TABLE public.lines (
    key text NOT NULL,
    line bytea NOT NULL
);
CREATE TABLE public.marks (
    name text NOT NULL
);
CREATE TABLE public.migrations (
    step integer NOT NULL
);
CREATE TABLE public.players (
    id text NOT NULL,
    name text NOT NULL,
    note text DEFAULT ''::text NOT NULL,
    created_at timestamp with time zone DEFAULT now() NOT NULL,
    deleted_at timestamp with time zone
);
CREATE TABLE public.shapes (
    id text NOT NULL,
    name text NOT NULL,
    shape jsonb NOT NULL,
    created_at timestamp with time zone DEFAULT now() NOT NULL,
    deleted_at timestamp with time zone
);
CREATE TABLE public.sources (
    sha256 text NOT NULL,
    bytes bytea NOT NULL,
    created_at timestamp with time zone DEFAULT now() NOT NULL
);
CREATE TABLE public.takes (
    id text NOT NULL,
    source text NOT NULL,
    file_name text NOT NULL,
    player_id text,
    title text NOT NULL,
    played_on date,
    chart_text text,
    options jsonb DEFAULT '{}'::jsonb NOT NULL,
    tags text[] DEFAULT '{}'::text[] NOT NULL,
    demo boolean DEFAULT false NOT NULL,
    feedback jsonb DEFAULT '{}'::jsonb NOT NULL,
    analysis text NOT NULL,
    created_at timestamp with time zone DEFAULT now() NOT NULL,
    deleted_at timestamp with time zone,
    corpus_id text
);
CREATE TABLE public.tallies (
    key text NOT NULL,
    chord text NOT NULL,
    role text NOT NULL,
    line_role text NOT NULL,
    notes integer NOT NULL
);
CREATE TABLE public.tokens (
    id text NOT NULL,
    name text NOT NULL,
    role text NOT NULL,
    scope text[] NOT NULL,
    hash text NOT NULL,
    created_at timestamp with time zone DEFAULT now() NOT NULL,
    ended_at timestamp with time zone
);
INSERT INTO public.analyses VALUES ('d1b656ecacca4f5e6f2473474442333a4802f25f678126307fc56855404e06ae', '1', '{"key": "F", "low": 65, "high": 82, "idiom": "blues", "notes": 16, "rests": 0, "swing": null, "tempo": 120, "method": "click", "motifs": 0, "phrases": 1, "seconds": 8, "choruses": 1, "runShare": 0, "warnings": 0, "chartName": null, "perSecond": 2, "soloNotes": 16, "confidence": 0.9, "placementShare": 1}', '\x1f8b0800000000000003ed5c4b73e33612fe2b2c9c76ab682f49f121e93676e26c6a2b5ba9cc542e333e402424614d011a02b2e372fcdfb7bac107489116659beb1cd687199102bad1f8bad14077434f44a55bb6a3bfb3427129c8d2770915347f545cd5ef884f5ca2e4a14819593e1141778c2c89ccb3cb1dcf884bd6b2d8514d9664c7330e4db7348862b224de2a9ea76948176130f7d27996d1380c8275cc7c3ff4b3709dadb2d48be2245b7b736f3667c93a9b2f665116fbb3389c47317189909a29b2f4639728964a9129b29cbb44739d33b214873c77c99e165a91e5d727c233b2241a865b0ef24b41d33b07c7afe93d5272c9be909b82eeaaee358be7db6797a45b5ae8464cd3e48e3d9225b9212ed931cd0af87ac528300d5d72105c9365f8ec129e71b9234bb2ca0f4c1197ac6861c6250ebb1574f381be2c4088af4f443dee563207c20934663087bef96028af0f22d506022479210503d90e3b5650e8f83374542985b920bff03f64fe98712a0848d2700dfab95eadc6b25dcb43d1e6fbfb28c6b37ec6d7a3f9f2fbb6bce3d886fd6ca798e5dbc630c886df33415ca2d91f600c77ec71e9dc7c13a8314b27fc47f84da0822c1d64f34dfce9dc24ce9fced50afebd867fe0f99b20cf2e917b1892eab5372573f92b6aa9d14e78feace97a6dbff827155963205ab342548f3ba6b7122c851eb4c401eff6b2fa920a983b98badb52efcdfb52b74b063019651bb5a5fbeab37c109fad47c5588693bd9134c777cf2ea139df881d136864f550d29ca777c425a9146b9e310133ea5d2e0c920755592e4fef0efb2b039d578f1ce820224b3ff05ca272f9c014c00c4f6baa74f5f4ec921ddd1bb5a85613cf257ba9b8d1000ff4a8fe6a617fe5cf01eddaa4cdb88c2a5163da4a23289e4b18cc3d985d5b1a20deed17d4fd82b21fa8efe97eb3ba5f58f68b47f50beb7e71d96f7edcefb6a3070fb4105c6c2a08cb15b35a7005acaf7baed32d59c6914bd49ee539171bb0b990b8440ac5ccbc64878296137d19d536e8bbe49ee532e5fa912ce79e4bb6a8bba4e09bad2ef59d2c757160953ab4a6bd366934facad033b62918d80d0cae9068bb8594406f73e019fb0256be5cd35c3117edfe67f12fd0f6f24dce05fbcdf442b28e36ab82a6c5068429ed40174c6cf4d628674e5366149bec81eb9a8b4db9fe9a8f9faba5828b352b0a86c69cf3acf164db822a6880fd7752f3758980e63b9c51cf25344de501b9dc38523820bee3bb8e61e1044b476f9903a23a72eddc24aea3be1f68c1a02d7c93c907017d2e01b446f1cdacff428b0d076507d531e00616b88b16b89f6c7001cf09e1ad7cd811bcb3065ebde5054ca985afa1fa7678bdcbb803304c4b05b03f15c09f6a80831a60df008cc21a84db48fa8348c254954826b0ec34485e470d92fea438565b82231c6104258e6bbed6db89ecd4bb9cbf00e464967a5d0339eb5a2a4adb0764300824d85d05647bbdfd71652339b14d56fbac232c71635982a9d83d135d38ff3766097bbb49d0fcd159e754d7908635a4a181b494b90fd4d920a8005c052a6c621a50af56d6421b4c0169d0e345cdf1e083dd282c5993afb2576d381b5f5a2eb5952fbd5a8d74a6e120c870a4ad40869d5803f20f96e106d3186e8db2e54c3b287f943705059f1ce71f4678d3ab55c760a3412c61e22a2c93f6aed7c272362992963bed20f961fed48672327fdaec7c87fde91194f12094f3064a40c2dee3da0e7536b15d5a0eb583e6f91ed5bc381fce972c733287fa69bc43856809159943318ae2c051145e43ab3bf6d8063c19047c316a2b1c4e81f6acc7d76244ec835d2dc83df912dcec8307bdecf548273b1f04d7f72c7421706ced8f6d74a7b1e61a5fcbcbb6f1fd28270b9b8fc911fe718493bdee2ccc8b6128add052d28e3efc6441392d9096936d03f9613ed64672321ffbd3081fdb45d21f8e23f9562069de5e73af6c271b4d6c9696936da379be8f7d359e2f59e6644eb673cc79c9c91ec13a1c54f2eda8d2f036389e02d3b0c795fe1582bf3084c9cdf31d83bffe70a8c91f196b8aa7b1da1ae1c1f8ef075a2d9c1a26b7da4eaca971aac756db8d35f9c3c126df8e360d6f80934931fdebc5826d442733dcd7c482fde190926fc5945e48d024131be86030f8a376bb369693ed769b044de34ebbbbdd232c8f424ab7d6d0815b092d0e01d3ebd5dc5d50915d28cdf6505d6232b4bf367957f3e2a6d15ff3e207db19b630ea8209ff57fe74cd0ba5ff2d3574c4046f4edbcf55d90c0c91af6b48d65cab6bc304b0adf51423f323858115e99430b0468c13060dd9120606620b0346520a034975234cf28224a0d195243b2e64e1ec99d0544bc1d32351405d5aa26085d5202e26eed395c58ecfb7648159b06581e72360b0d3802c20fc585492ae282fa37242942e2cb08cd9a280fd1ec1826e764014e03d1a96230d7b19163c297445b123392d5120ba648b02cf47a85ce0040cc8029331169645579497617959942e2a184b69993e98cf59b800bfb1b28c50b193ab987d2a68cb0286db92055e9c070c68e558618e74ec589893ab98bd016e0b0396db12c62a976c80b9888e85b935fee706ca169f409a8219868f58bc052fbba2c15e09b6ff4776b5f42efd207a86cec00286de2e8eaac863f114b6c9ea26b5d4cd180e0a4ac6a03eebc424b7a6d0bc02e56ee62006d0465301adaaa940a167492580711fc4c0b090d845b5ad1949d2d4988da73324608b0e944a5e941b901dfd8f847acdd78ce708e057928121bc920cd67256ea619cc8bbe987c568f606b1af56d6c2f1a286bc30b0418ae72ac8bb111a9aaa3769dae080ced491369d9692a04b7b371df9e97d74c4b2d4f7519121d31f01ec7bd1199aa73729c8d078ced48f161953990d2e104ba8cbe31a8433b8d214eb5c03706765d97008ae14dc281cf452b9dbc139ada7c8d7de876b7ac7447d5eb58f9e1d585d878b8cfd511d0fa5706e48a5bdbdaefe6dc4afb11ade9c6a51f8921688b6e3cae8209c38a5527c05276cb8bab093f7d517a9846ae930baf49278b188e7732f0ae33886ca6da822a79ae3458aaf4fa7cf886654d0d8af097b975e30f3c35914f9333f0cbc4584bb9553ba539f7361eade9ff1a0714fcd7748c95fcb37b0f8066dbe109d3f69ebc37cfbcecd96bc6ee08616ef385e84332f8e668b3088034cf88ce59d0447bcfbceb9bd737d862a25b8dabc95cd2900cfe66203e825f13c8ac3701ecfa3646176d32f7a8ef7603af35a7fe7684d0fdfbe63fd48adb1cce434e7e44cce18ad0adda866ee5f06d162b10892d08fbc7914d8e6726a75e891bb2f067042954e6becb161bc82cd498d3d978bad3c51606bac7704e1b0cabe852b66a646abca31a7fe28c7146a8a7772cee2fdbe8ada237b6f54a457872efda4e550ce51dd63fb7c17c627059e8aef29233a9fef3b79ee3ecebdb1a28673e806ae2df5db7c37ecbc75c174bac56d22d0a5078da90f932228d8862b6d58d7d71b5754c19a90cb07b20ca0dc806fb6641926edb341d598e5f2c1d9f12ccb99031b7fec16424918768b16bdddd685dc1df58a21e185bd12bfee155abda870640ab7871dba92f7ec8800c4f90c81f9ac39f2a1a19514f4832c49a8011a73c8ef218d45d43b742df755db05d4b1625bdf9bb78fc465faca4c6c93436a2b439f2e54a3863b84437914f3c2dc99b5ef62174ce9cfd66d4a786eae689a3986949799224b996891426a970af580ca60b463250f22a3c52332644814ef29825e1507b8128b27192b3367465c4a6d0ddf120a12907818c22a1030b0c835ca5c3d984473f9501512e0e373938d348749883a987c24e461cb4c277ee5570466d587a8fab04a6a6a95fe438f9ee9f97ea0427373bf365eb8095ce349a0583149dc6471098e60cb952eefb07f7db2af5ed60107b779ddd802eaa475c7a4a7352873f91a831fd66585bed60dcb16edb8bf7563ccadd6cd00edd69088ee7bdd0cd04795cf985098b97e227b565c9527e93d2b8c4e222fa21e30775be678ed5cabb110cc4e62620f3362984bc2240c662ff67362a7683fd791265b0b8b03dc7d862f4a1b30fa5f5b240681fe0ffd7b425f6c1ff57687490c1b5f7cb87a8435a89dba7f227443b90027473605dea5af22409e4bbe83f5bae43bd86ec3288675a2606a2b73b8cb8e5773b68cc2c2514667b2a24e7f3f9757d23f6bbae2396aa519d238253dac327ecfe14737703581ca2de3266199518f2295fbaa7cc356312e342beef186fd1301df0c2b8d17b7ff126bbd4b66ed3ff8098f43a1b717f522e8775acc5cf28055123d8401085c973174571a4019710307c0e85e7d5aa3d2c305fc5c8a0d53fa37bc935f4e9a7dbf1c372659f9547a3108615d7075a1b6b2808a942da3d002fc1b9817171bbc13601c8b4bee38d6af08a9790acf0f0c2b5930b0667e9ce1cb962b872b873a48d20106cedffc18ef13a8bfbb8e924eceb5ce19b4529467e0b80fdad9d215d7ead2f9e41847e3c8c201f7be9305731ee421cf1ccdf21c9fa1ec83dd57f7eabf966513983fc5c423161ec04a834755bc4f64b2de982fc6738129802e93ae265d899b3953c005befbc5df2400e3e9be44fbebbe4483efbe0cb130a5a0294ea3c1eaf6f9bf1f990a5b33460000', '2026-11-29 02:18:01.037104+00');
INSERT INTO public.charts VALUES ('a8250186-5fcb-4b3d-b3c0-1e0eac03f070', 'Four bars', 'key: F
meter: 4/4
idiom: blues
| F7 | Bb7 | C7 | F7 |
', '2026-11-29 02:17:55.824242+00', NULL);
INSERT INTO public.corpora VALUES ('4296f66d-0b2d-4f96-8156-4cf37cdb7a9e', 'Old corpus', '', '2026-11-29 02:18:01.307133+00', NULL);
INSERT INTO public.items VALUES ('ba0a8820-d5e1-48c1-8544-829d5c0f87ed', '62e88cb5-c397-41e4-aaa9-c7d741f4b14b', '4296f66d-0b2d-4f96-8156-4cf37cdb7a9e', 0, 'bad.mid', 'ac5a4718470a5be50178d026e882f1071b3f547a343618f56d5c7cbf6279e464', 'bad', NULL, NULL, 'key: F
idiom: blues
| F7 | Bb7 | C7 | F7 |', '{}', '{}', 'failed', 1, '{"code": "unknown-file", "todo": "Choose a MIDI file (.mid) or a MusicXML file (.musicxml, .xml, .mxl).", "where": "byte 0", "message": "bad.mid is neither a MIDI nor a MusicXML file"}', '2026-11-29 02:18:01.715927+00');
INSERT INTO public.jobs VALUES ('62e88cb5-c397-41e4-aaa9-c7d741f4b14b', '4296f66d-0b2d-4f96-8156-4cf37cdb7a9e', false, 1, '2026-11-29 02:18:01.390992+00', '2026-11-29 02:18:01.715927+00');
INSERT INTO public.lines VALUES ('d1b656ecacca4f5e6f2473474442333a4802f25f678126307fc56855404e06ae', '\x100000000100000002000000030000000400000005000000060000000700000008000000090000000a0000000b0000000c0000000d0000000e0000000f00000010000000000000000000003f0000803f0000c03f0000004000002040000040400000604000008040000090400000a0400000b0400000c0400000d0400000e0400000f0400000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f000000000000803f0000004000004040000080400000a0400000c0400000e04000000041000010410000204100003041000040410000504100006041000070410000803f0000004000004040000080400000803f0000004000004040000080400000803f0000004000004040000080400000803f000000400000404000008040010001000100010002000200020002000300030003000300040004000400040001000100010001000100010001000100010001000100010001000100010001004145484b464a4d50484c4f524d4b48450005090e0005090e0005090e000e090502010204010102040101020402040201');
INSERT INTO public.migrations VALUES (0);
INSERT INTO public.migrations VALUES (1);
INSERT INTO public.migrations VALUES (2);
INSERT INTO public.players VALUES ('4f8e3ab2-0539-43d3-a6a7-48fdc499cd32', 'Ilvi Oldenkamp', 'left-handed', '2026-11-29 02:17:55.570033+00', NULL);
INSERT INTO public.sources VALUES ('0b68cc4a94280c8dda6422f6e1141d4fdbdc0567df08038e7fd8935d61364856', '\x4d546864000000060000000100604d54726b0000008b00ff510307a12000904150608041000090455060804500009048506080480000904b5060804b00009046506080460000904a5060804a0000904d5060804d000090505060805000009048506080480000904c5060804c0000904f5060804f00009052506080520000904d5060804d0000904b5060804b000090485060804800009045506080450000ff2f00', '2026-11-29 02:18:01.09262+00');
INSERT INTO public.sources VALUES ('ac5a4718470a5be50178d026e882f1071b3f547a343618f56d5c7cbf6279e464', '\x6e6f204d49444920617420616c6c', '2026-11-29 02:18:01.390992+00');
INSERT INTO public.takes VALUES ('660ab282-b03e-456d-97f2-7ef78ec3858e', '0b68cc4a94280c8dda6422f6e1141d4fdbdc0567df08038e7fd8935d61364856', 'old.mid', '4f8e3ab2-0539-43d3-a6a7-48fdc499cd32', 'An old take', '2026-02-03', 'key: F
idiom: blues
| F7 | Bb7 | C7 | F7 |', '{"name": "old.mid"}', '{old,kept}', false, '{"own": "I rushed", "added": [], "asked": false, "edited": {}, "hidden": [], "signed": "", "askFirst": false}', 'd1b656ecacca4f5e6f2473474442333a4802f25f678126307fc56855404e06ae', '2026-11-29 02:18:01.09262+00', NULL, NULL);
INSERT INTO public.tallies VALUES ('d1b656ecacca4f5e6f2473474442333a4802f25f678126307fc56855404e06ae', 'dominant', 'root', 'chord tone', 4);
INSERT INTO public.tallies VALUES ('d1b656ecacca4f5e6f2473474442333a4802f25f678126307fc56855404e06ae', 'dominant', 'third', 'chord tone', 4);
INSERT INTO public.tallies VALUES ('d1b656ecacca4f5e6f2473474442333a4802f25f678126307fc56855404e06ae', 'dominant', 'fifth', 'chord tone', 4);
INSERT INTO public.tallies VALUES ('d1b656ecacca4f5e6f2473474442333a4802f25f678126307fc56855404e06ae', 'dominant', 'seventh', 'chord tone', 4);
ALTER TABLE ONLY public.analyses
    ADD CONSTRAINT analyses_pkey PRIMARY KEY (key);
ALTER TABLE ONLY public.charts
    ADD CONSTRAINT charts_pkey PRIMARY KEY (id);
ALTER TABLE ONLY public.corpora
    ADD CONSTRAINT corpora_pkey PRIMARY KEY (id);
ALTER TABLE ONLY public.ideas
    ADD CONSTRAINT ideas_pkey PRIMARY KEY (id);
ALTER TABLE ONLY public.items
    ADD CONSTRAINT items_pkey PRIMARY KEY (id);
ALTER TABLE ONLY public.jobs
    ADD CONSTRAINT jobs_pkey PRIMARY KEY (id);
ALTER TABLE ONLY public.lines
    ADD CONSTRAINT lines_pkey PRIMARY KEY (key);
ALTER TABLE ONLY public.marks
    ADD CONSTRAINT marks_pkey PRIMARY KEY (name);
ALTER TABLE ONLY public.migrations
    ADD CONSTRAINT migrations_pkey PRIMARY KEY (step);
ALTER TABLE ONLY public.players
    ADD CONSTRAINT players_pkey PRIMARY KEY (id);
ALTER TABLE ONLY public.shapes
    ADD CONSTRAINT shapes_pkey PRIMARY KEY (id);
ALTER TABLE ONLY public.sources
    ADD CONSTRAINT sources_pkey PRIMARY KEY (sha256);
ALTER TABLE ONLY public.takes
    ADD CONSTRAINT takes_pkey PRIMARY KEY (id);
ALTER TABLE ONLY public.tokens
    ADD CONSTRAINT tokens_hash_key UNIQUE (hash);
ALTER TABLE ONLY public.tokens
    ADD CONSTRAINT tokens_pkey PRIMARY KEY (id);
CREATE INDEX ideas_found_key ON public.ideas_found USING btree (key);
CREATE INDEX items_corpus ON public.items USING btree (corpus_id, state);
CREATE INDEX items_job ON public.items USING btree (job_id, state);
CREATE INDEX items_source ON public.items USING btree (source);
CREATE INDEX takes_analysis ON public.takes USING btree (analysis);
CREATE INDEX takes_corpus ON public.takes USING btree (corpus_id);
CREATE INDEX takes_player ON public.takes USING btree (player_id);
CREATE INDEX takes_source ON public.takes USING btree (source);
CREATE INDEX tallies_key ON public.tallies USING btree (key);
ALTER TABLE ONLY public.ideas_found
    ADD CONSTRAINT ideas_found_key_fkey FOREIGN KEY (key) REFERENCES public.analyses(key) ON DELETE CASCADE;
ALTER TABLE ONLY public.items
    ADD CONSTRAINT items_corpus_id_fkey FOREIGN KEY (corpus_id) REFERENCES public.corpora(id) ON DELETE CASCADE;
ALTER TABLE ONLY public.items
    ADD CONSTRAINT items_job_id_fkey FOREIGN KEY (job_id) REFERENCES public.jobs(id) ON DELETE CASCADE;
ALTER TABLE ONLY public.items
    ADD CONSTRAINT items_source_fkey FOREIGN KEY (source) REFERENCES public.sources(sha256);
ALTER TABLE ONLY public.jobs
    ADD CONSTRAINT jobs_corpus_id_fkey FOREIGN KEY (corpus_id) REFERENCES public.corpora(id) ON DELETE CASCADE;
ALTER TABLE ONLY public.lines
    ADD CONSTRAINT lines_key_fkey FOREIGN KEY (key) REFERENCES public.analyses(key) ON DELETE CASCADE;
ALTER TABLE ONLY public.takes
    ADD CONSTRAINT takes_analysis_fkey FOREIGN KEY (analysis) REFERENCES public.analyses(key);
ALTER TABLE ONLY public.takes
    ADD CONSTRAINT takes_corpus_id_fkey FOREIGN KEY (corpus_id) REFERENCES public.corpora(id);
ALTER TABLE ONLY public.takes
    ADD CONSTRAINT takes_player_id_fkey FOREIGN KEY (player_id) REFERENCES public.players(id);
ALTER TABLE ONLY public.takes
    ADD CONSTRAINT takes_source_fkey FOREIGN KEY (source) REFERENCES public.sources(sha256);
ALTER TABLE ONLY public.tallies
    ADD CONSTRAINT tallies_key_fkey FOREIGN KEY (key) REFERENCES public.analyses(key) ON DELETE CASCADE;
