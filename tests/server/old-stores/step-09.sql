CREATE TABLE public.analyses (
    key text NOT NULL,
    version text NOT NULL,
    facts jsonb NOT NULL,
    account bytea NOT NULL,
    created_at timestamp with time zone DEFAULT now() NOT NULL
);
ALTER TABLE ONLY public.analyses ALTER COLUMN account SET STORAGE EXTERNAL;
CREATE TABLE public.blocks (
    key text NOT NULL,
    name text NOT NULL,
    block bytea NOT NULL
);
ALTER TABLE ONLY public.blocks ALTER COLUMN block SET STORAGE EXTERNAL;
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
    faults integer DEFAULT 0 NOT NULL,
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
    line bytea NOT NULL,
    packed bytea
);
ALTER TABLE ONLY public.lines ALTER COLUMN line SET STORAGE EXTERNAL;
ALTER TABLE ONLY public.lines ALTER COLUMN packed SET STORAGE EXTERNAL;
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
CREATE TABLE public.sounds (
    take_id text NOT NULL,
    file_name text NOT NULL,
    bytes bytea NOT NULL
);
ALTER TABLE ONLY public.sounds ALTER COLUMN bytes SET STORAGE EXTERNAL;
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
    ended_at timestamp with time zone,
    expires_at timestamp with time zone
);
INSERT INTO public.analyses VALUES ('c323d5b7d09182089bab0a79c404cfd3402370ccbbd9f94a8e9246b547d1a502', '3', '{"key": "F", "low": 65, "high": 82, "idiom": "blues", "notes": 16, "rests": 0, "swing": null, "tempo": 120, "method": "click", "motifs": 0, "phrases": 1, "seconds": 8, "choruses": 1, "runShare": 0, "warnings": 0, "chartName": null, "perSecond": 2, "soloNotes": 16, "confidence": 0.9974982082622521, "placementShare": 0}', '\x1f8b0800000000000003ed5b5b6fe33616fe2b049f5a40f15ab62cd9dea749dae9168b168ba6e8cbcc3cd0126d7123911e924a6aa4f9ef8b7348dd1ccb634fab451e9a87c0a4c8c3cb77ee3a7aa626cd79c97ee3da0825e93a0c2893ac3818619a3e3aa70135aad229a7eb672a59c9e99aaa229b9422a301dd2a5d324bd7b4149980a1399b2d62baa6d34dbc4cd388ada2d9729a2eb38cc5d16cb68d79184661166db34d964e1771926da7cbe97cc9936db65ccd17591ccee368b9886940a5b2dcd0751807d4f054c9ccd0f532a056d882d3b5ac8a22a07ba6ada1eb0fcf5464744d6d08f3dc267fd52c7d20d0612c7b444a01dd6bb5d3acaca7374bbc7c7a09689a336ddb63ba210ffc40d7f43d0d68c92dd7f078c3192c1a05b492c2d275f41250910955d235dd14153734a01ba6ddbe64556e605a08f49586437c78a6e6506e5401841318cce10e43f7c351de5632b50e022479a32487b35525d70c26fe08134dcae02ee84fe277551c32c1248593b4abce4eaf7abbb974d9adaa747fdddf2e5a787e7ae1bb8bd7158ffdf35eb66c747ad9316ef9532b1874271eb9a401b5fc771086077e5893f71f2572cc9a44ff883e4a649035c1653eca3fc8fb84fc416e37f0ff0efe41fba3a42f01557bd89239296f4615ea3fc8a58e3ba17d6fd976dbedf81793592b20d6722deb66c96dae4052586515f52c7fa7e456e8926774bd6585e1708e72afea394cc295c28d7ef2e2e0fa3dcbfb75e18efc1893b33dfc764fd493bcf71df890c33a6140778a15d8f7125056889d2cb944e96bf69816227d804dc2fe322ee1aaa793d52a8956cbd974398b67b3c5cccb55656a0917e943b5bf75104f9ba30059446e1dcea60135857ae206d8015a5b666cdd7a0968c9f68e7d6aad330de85e19e138650afcd63c5a751f854be08a46f4ddbe1ccb31a7028c45f0a601e5801188e7d1e1e2781ec5ab59325d468b55026b1d93993564669e0c70fd1199e53c0e9359b45a2de264159e22336fc8449e4c3c48268ec359129edc4dd490893d99e56b32ee50d378395fac92042ea9c7544f4c4b2177be853cf91e142b30d04ba3a56b252f41a7ef854d73ba8e1701357b5e1442ee40ce231a50250d77779c559a79d0268b46eec3803ef242a5c21ee87a390d688ef242b5d8e5d6cb185d5b5df19ab57a10366a04154dad5c32bed31c641536a715ea0bad14d0db5522e3bf8266a9c50b94c08ff2df204abea71092ffe2662159629d26b24cefe0305ec8ace6726773c7e8054bb99319f7742be4ce5b1af7f3be564f426eb9d61c154821b2d67ae69a1918b0875d97ca8aadc7c08a126f741a5096a6aa8255e87ba22481e39330206e0912ae89cd3981a312b525ef938098cf15d31cc6c2934c3d49983301d05a2172b7fe13d33b0182039ce5c09d75c05df5c07dd70517f01c11deda6ebe8217fc210fafcd85862bede0eba8fe7978a793f80cc0b3b1007ed7003c6b009e3980f1b035c2d51efbdc513607c2dce33ec4e120c470871ee20494590bf1dda285381c15e0da3f790530ecc003bc155b9b8f24c0d3c9f20cc2f3b110be6b109e3708cf1dc278da1a618f680fe93ebcb34178414c6b78fbeaf9fb4d17df9145b876055f218cbeaf87d8f0472e8f41feff4831b89fa360fc3dd916cc3640470dd09103da9ff92a619e0fa20d88d6688363d5a27dbbe928ecd91858cf4e586317dabc21733c9ab6beede3dcda64afb26b9b7cbb0181b624572527cce0b30dd364c377429a3eced120ce1091d73883cfd7e2fc5d47a867e308750374c72e1f01fd160cf3689ed777270cb3f7bc1ac38c305f24cc8b4190e1466b9093be67dd01793e2ac41dcb7c04f19b30cda38973eb5db7a6d94b72639a9d287fd136c783002f5b80019fae77ddb5cdf391c5b8639b8f30bede38bb8eeb413e27c8a3d9e67797db66c80d31991186392302413074c3a8077eb850d493414e585de4844763b0c1fc84d9c6c4e01bb2daa3a9f2d6031f0ca2ef9280ec0b262dcfea281aec351caf8fee7210dd70da811712e81d27bc0bef3872de00dc31d77d80df82b51e4d937f7fc25a1f87d180f19715f96a18e04e122ce9e7497ee8003c2ebc1d53dd87f74d58ead182e81f4e58eae3201af0bd484387c3a9b0b0930b5bf675f46dd75a2f4696e28eb5eec37cbdb1fe6aa0cf09f268d6fa28c23a67ad2f93e77038291676b362c3be773c06d2d10983fc7756fbfaac76389c140b2fcc8ac5e3c87283f06062fb8dc8f2684afb282bd65a66afb98fb2628c3ce5aae0c458be47b471d06b172c1cce8c85ddd4d8b08b9d8c8af7dbce738fe6829dca731f07d3007383ec178cf4705e2cec24c6cebcb04a4696ebc16cf75bf0b447d3dded0babd6361fe7c5baaf33fa701f61fc2a2df6a97324bf0b1880afa69fa1ca41c3ebed806e0e58e040d7cf2fd0b8f318f52b00eae158218063b26648835a4bb3325026014b56d2ffc625611907e40d93d90da827283772afd3bfeb9a6bd70594db5a2a57bb70291550110d95bbb35490c24dcd605fbf9bb3742eda0f140edd785628d97f15542f7dcd7e4a2195267b2e2db34a8af46bc9c016be920c5636d5fce1f264a330c8ed6660f35f24d34364e80a2e40f69aed9c2574d186ae6591c10d5dc923c374ae63923e9d1e97607c360a930cc9db17a9f420f9e12c95b3d05eb19bb3742edacfb52c32b49f2b396490cc750cd223e32a1573b1051bf64cbde984ea28612c73255a5018e8aae39c192e98e58e6f525596601db14c0f4d3552b1ec81636f404b611a2edb2b63c406dc06aca3538ff5835441795d9c4c968b70dafc41c57101e589cc0aacd085a15bcdf9bb7eef33dd0a6deccf0a76e5de5215acdf7658c1e079b3dc7412ae7a7f73b8d31e29781fd22505edd3a49205dea3d5dca679bd2b8d35bf58d06215fc028faf333f88b0e2b114e03e19ba761bf0b33085e7a661a6e7ec3cd809ab2c7a2af41edee4ba77018613cd19ec884078fa24323e21f7252b0a02be8a2105678fe00d71a22acb75ed25a9ca4ec8bd557b7833bc674206046a68253786284dac903bf06203f70ac23c10460a9172697846d24248910a2661249384ffbee75a40b55f462c6e46ff131c2e437cb93581fa5843a422c066292b08cb1e458aa194e63b61ac3b7753f0ba61063449a19ee81a2a3c73b1cbe93a4afad2510fe6857a22a5c8b28213607d9c1641721ca72d5627a7010caf66c5e07ee3ac246c66459d5970e814eac909dba847fe8a00047a8ec072de1008671d0af64979126680c612a20da4b15a9cdcba55fb7aec0adef5e1d870baec5b05ef4cbb8bc560059dea1eff434797ff319aa9770df5a043d535aec3555177abf33537f6be53370bedb618d7dd3138daee8a202af62a8ee914625026cd13328353441b55c98ce9032ec891281699823ce80a8aa4510575e204b7637feacef63b87827008b518a6b2d6d3c96c11f8e0c8375c44ec1b7536049b2f6d6ce4d4691b1d4154e8e32e7c14d604e6f58f45fd639334d46afe871927aee773c5a415aeb43a5e0509544d25f0da264982643559404c228cf55f357c78ee16c6d64706cee944a8be1b79b253b973623430b3ef46cdd5a9ff3835ba5db2473b3e3dba15e6dee87683ddd110169fea6e371822cb675c1a8ca39fe99eeb5b1f22efb9763c896b51f38491a48f388f22bca67ddf78515df6d21554b3fb07c0dc8eb11b51c3a8f16f4cff4a4c757eb07989217717386cdc1e40b9f43304cf94ed989060b6e94ee36713b577330de86710cb807e06a16c178a4101686e7255c0d70958c69473061ac16744322db63eb1f1e2bf2ab8b76c230a6437b7a5cbb8afda64e251c0f755a82620afecec1fe80f7390a9dad759a22e8b0969b97ec46f269e2978b8a042a671ff2fe928b264deff83afb52a6df39b46bb854723e6010507e224610002152e7aa55e005a67b2e06c6fde6d91e9c1f72b94dc71637fc1cf2afca5f5cbfcb74266bee5cd13389537c2dc985c69487ce59cc108305c205e42eed01b711623a00f02d36452599142fb8963c20c94bdff0ee757f04184218c2049020b906fc2188b29ccb701318a14c2da82c328c3440616b9b224671b61cd84bcc34451e55ca227454a053e96aa0a70748a02dbe0c4f0c7fa6b870fcea662193bfa85e81262952496d0a1b38a6e265660b817f5ce15745ea07b11e4de17b8143218e5b39f9580f01c77a2fc1d77a2c01f774698e7d22cc56bf4587944801b6ebccfdb03e4811f368a81e5e3692ec5e7ea1c20d3c9226a30f9d195b07867179d56ac49046f91edd09bcdb046b104784ac8c07b97bb7170c937701724446e987ffb57fabb7fd2dd85039cf1757b6cd2324783fed528635c7084dda797ff01086cae36da390000', '2026-11-29 02:20:22.288047+00');
INSERT INTO public.blocks VALUES ('c323d5b7d09182089bab0a79c404cfd3402370ccbbd9f94a8e9246b547d1a502', 'notes 1671f1f99951', '\x785ea554db6ea330107593ddee766fdf60f9798430019cf4ad499b7ec4aa0f509c82969a2c38adaaaa3fb05fbd1aae09252652411913cfcc99993363ffbb20e495e5d973c12eb90fec3e4b778faa6097bf5fd95390ee247e32c51930e5a098a1705178287c1402c51cc50205b74b59faf0d289975ebc74e3a51ff7d91d468b300093c17dccde602fa4ef81bf00e180f040d8205c1002e636081fc402e6ce9e739a145a4687ee6c8db1ae50ac30de4d887219e2c6357eae515c95bb37286e2bbdb79fd510b00db6e501076e79e0806379308399e5810baee581079ee5810fbee581006179c61aed037d113cca433d376ae7b651cdf2e421d6fbe5bcb7d1f94e1a0dcc1970706006ee0863a759d950db01f227600e0be036700edc013e03ee0237b3c9d63886cb10e54a8cf591e174e25462dfc371f33ccb3403a6e3248f18b04db2d1310356c827a9743ce6be09d242428fee0f19b2fb38cb23aa3325cd3d56bb34351a70b02d1f6c6b3e12f104a0531acd12b591792ea30fa6cdb6dc8cc0ccea91d3b3a699a2a10c34e54037897a9039e59754c792e228d06c43d70268f17717e4126d511365cf0a7d2cbc5b5a00a705702a8072881a84ddb6dcabda19bed0a05223c4aa8598b510b30aa29cbf06a276398042ff1bba4903dd82b82d885b81d4c37b4226cb43a48e92baa286926588e9681a678f920645a90b839c86f2215105225d0fd052f3dad252a218b2e97ad3f15227d2f25265728498abd389598682062aa2010dd39da42ad312b7d1ea8f7c31a6d9b5efe808ad04d06d1a282da3668690ae3451b26ae07bb2fa338410c7eabc1d20aa3f40e86f28a2d7791355a64c7aa3d89553a7d31bc5803ec7592a69a1e5b63c55a55143cbd0b9e8f71f515ac7a1c2baf3d9d5d41fc4fdc37508668dddf823b7cfe0f576f746c819999029f9443e9373f2854cc8577241be91733225137246c6f5d57356bf93fa9dd66fe37f7c1df6ef9ebe7db31ee6f77eedf4e6dffed3ff5fed75718eadd3fa6b3f7ec34ef5bfe1af62ef3b21e407f9497e91ff47f3f218');
INSERT INTO public.blocks VALUES ('c323d5b7d09182089bab0a79c404cfd3402370ccbbd9f94a8e9246b547d1a502', 'phrases 094091b24106', '\x785ee3666260a8562aca2f2f56b232d4514acecf29cdcd2b56b28aae562a4bcc294d0531950a0c956241722920ae526a62728652ad0eb2823cc20accf0ab3034c32f4d335913bcb21678650d28903533c52b6d6184575a29b12839037f88e695e6e4e05580192eb1b5008570a871');
INSERT INTO public.blocks VALUES ('c323d5b7d09182089bab0a79c404cfd3402370ccbbd9f94a8e9246b547d1a502', 'motifs 9c86b190965a', '\x785e5bc3c8c050ad54945f5eac6465a0a3949c9f539a9b57ac64155dad549698539a0a62c682c453404ca5d4c4e40ca55a9d51c981918cad0500b6428cd8');
INSERT INTO public.blocks VALUES ('c323d5b7d09182089bab0a79c404cfd3402370ccbbd9f94a8e9246b547d1a502', 'placements 47565b654328', '\x785e5bc3c8c050ad54945f5eac6465a0a3949c9f539a9b57ac64155dad549698539a0a62c682c453404ca5d4c4e40ca55a9d51c981918cad0500b6428cd8');
INSERT INTO public.blocks VALUES ('c323d5b7d09182089bab0a79c404cfd3402370ccbbd9f94a8e9246b547d1a502', 'choruses 31137ec91152', '\x785e5bc3ccc050ad54945f5eac6465a8a3949c9f539a9b57ac64155dad549698539a0a621ac6822452406ca5d4c4e40ca55a1d645933bcd266a678a52d8cf04a9be095c5af37af342707af02039ac9e20f31033d23fc81420f05a3b2749125901248948dad0500969a2e8e');
INSERT INTO public.charts VALUES ('0251771e-1bb5-4ba6-84c9-2c296b714118', 'Four bars', 'key: F
meter: 4/4
idiom: blues
| F7 | Bb7 | C7 | F7 |
', '2026-11-29 02:20:19.905228+00', NULL);
INSERT INTO public.corpora VALUES ('2510baab-511d-4d6a-bc85-8c03a4394826', 'Old corpus', '', '2026-11-29 02:20:22.559314+00', NULL);
INSERT INTO public.items VALUES ('d2a0dbbd-d8d7-4e92-8c4d-19b07e3da4e9', '75d19d5c-bc95-47bf-b050-ae52d4e48c3b', '2510baab-511d-4d6a-bc85-8c03a4394826', 0, 'bad.mid', 'ac5a4718470a5be50178d026e882f1071b3f547a343618f56d5c7cbf6279e464', 'bad', NULL, NULL, 'key: F
idiom: blues
| F7 | Bb7 | C7 | F7 |', '{}', '{}', 'failed', 1, '{"code": "unknown-file", "todo": "Choose a MIDI file (.mid) or a MusicXML file (.musicxml, .xml, .mxl).", "where": "byte 0", "message": "bad.mid is neither a MIDI nor a MusicXML file"}', '2026-11-29 02:20:22.843851+00', 0);
INSERT INTO public.jobs VALUES ('75d19d5c-bc95-47bf-b050-ae52d4e48c3b', '2510baab-511d-4d6a-bc85-8c03a4394826', false, 1, '2026-11-29 02:20:22.614584+00', '2026-11-29 02:20:22.843851+00');
INSERT INTO public.lines VALUES ('c323d5b7d09182089bab0a79c404cfd3402370ccbbd9f94a8e9246b547d1a502', '\x100000000100000002000000030000000400000005000000060000000700000008000000090000000a0000000b0000000c0000000d0000000e0000000f00000010000000000000000000003f0000803f0000c03f0000004000002040000040400000604000008040000090400000a0400000b0400000c0400000d0400000e0400000f0400000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f000000000000803f0000004000004040000080400000a0400000c0400000e04000000041000010410000204100003041000040410000504100006041000070410000803f0000004000004040000080400000803f0000004000004040000080400000803f0000004000004040000080400000803f000000400000404000008040010001000100010002000200020002000300030003000300040004000400040001000100010001000100010001000100010001000100010001000100010001004145484b464a4d50484c4f524d4b48450005090e0005090e0005090e000e090501020304020102040102030401030201', '\x4145484b464a4d50484c4f524d4b484501060a0f01060a0f01060a0f010f0a06010203040201020401020304010302010d0d0d0d0d0d0d0d0d0d0d0d0d0d0d00');
INSERT INTO public.migrations VALUES (0);
INSERT INTO public.migrations VALUES (1);
INSERT INTO public.migrations VALUES (2);
INSERT INTO public.migrations VALUES (3);
INSERT INTO public.migrations VALUES (4);
INSERT INTO public.migrations VALUES (5);
INSERT INTO public.migrations VALUES (6);
INSERT INTO public.migrations VALUES (7);
INSERT INTO public.migrations VALUES (8);
INSERT INTO public.players VALUES ('3b45038d-82b1-4089-8b4e-0dd999616bdd', 'Ilvi Oldenkamp', 'left-handed', '2026-11-29 02:20:19.831113+00', NULL);
INSERT INTO public.sources VALUES ('0b68cc4a94280c8dda6422f6e1141d4fdbdc0567df08038e7fd8935d61364856', '\x4d546864000000060000000100604d54726b0000008b00ff510307a12000904150608041000090455060804500009048506080480000904b5060804b00009046506080460000904a5060804a0000904d5060804d000090505060805000009048506080480000904c5060804c0000904f5060804f00009052506080520000904d5060804d0000904b5060804b000090485060804800009045506080450000ff2f00', '2026-11-29 02:20:22.355682+00');
INSERT INTO public.sources VALUES ('ac5a4718470a5be50178d026e882f1071b3f547a343618f56d5c7cbf6279e464', '\x6e6f204d49444920617420616c6c', '2026-11-29 02:20:22.614584+00');
INSERT INTO public.takes VALUES ('9dff6490-c52c-4e40-ab66-c458850e7910', '0b68cc4a94280c8dda6422f6e1141d4fdbdc0567df08038e7fd8935d61364856', 'old.mid', '3b45038d-82b1-4089-8b4e-0dd999616bdd', 'An old take', '2026-02-03', 'key: F
idiom: blues
| F7 | Bb7 | C7 | F7 |', '{"name": "old.mid"}', '{old,kept}', false, '{"own": "I rushed", "added": [], "asked": false, "edited": {}, "hidden": [], "signed": "", "askFirst": false}', 'c323d5b7d09182089bab0a79c404cfd3402370ccbbd9f94a8e9246b547d1a502', '2026-11-29 02:20:22.355682+00', NULL, NULL);
INSERT INTO public.tallies VALUES ('c323d5b7d09182089bab0a79c404cfd3402370ccbbd9f94a8e9246b547d1a502', 'dominant', 'root', 'chord tone', 4);
INSERT INTO public.tallies VALUES ('c323d5b7d09182089bab0a79c404cfd3402370ccbbd9f94a8e9246b547d1a502', 'dominant', 'third', 'chord tone', 4);
INSERT INTO public.tallies VALUES ('c323d5b7d09182089bab0a79c404cfd3402370ccbbd9f94a8e9246b547d1a502', 'dominant', 'fifth', 'chord tone', 4);
INSERT INTO public.tallies VALUES ('c323d5b7d09182089bab0a79c404cfd3402370ccbbd9f94a8e9246b547d1a502', 'dominant', 'seventh', 'chord tone', 4);
INSERT INTO public.tokens VALUES ('ab7ef638-cdab-495e-8757-633daaeff409', 'For Ilvi', 'reader', '{9dff6490-c52c-4e40-ab66-c458850e7910}', '789478453f1bf7dcfdb456a1541fba11a48061917b2fd1e11c344067d156de75', '2026-11-29 02:20:22.514532+00', NULL, NULL);
ALTER TABLE ONLY public.analyses
    ADD CONSTRAINT analyses_pkey PRIMARY KEY (key);
ALTER TABLE ONLY public.blocks
    ADD CONSTRAINT blocks_pkey PRIMARY KEY (key, name);
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
ALTER TABLE ONLY public.sounds
    ADD CONSTRAINT sounds_pkey PRIMARY KEY (take_id);
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
CREATE INDEX takes_corpus_page ON public.takes USING btree (corpus_id, id);
CREATE INDEX takes_player ON public.takes USING btree (player_id);
CREATE INDEX takes_source ON public.takes USING btree (source);
CREATE INDEX tallies_key ON public.tallies USING btree (key);
ALTER TABLE ONLY public.blocks
    ADD CONSTRAINT blocks_key_fkey FOREIGN KEY (key) REFERENCES public.analyses(key) ON DELETE CASCADE;
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
ALTER TABLE ONLY public.sounds
    ADD CONSTRAINT sounds_take_id_fkey FOREIGN KEY (take_id) REFERENCES public.takes(id) ON DELETE CASCADE;
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
