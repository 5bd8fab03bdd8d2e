CREATE TABLE public.analyses (
    key text NOT NULL,
    version text NOT NULL,
    facts jsonb NOT NULL,
    account bytea NOT NULL,
    created_at timestamp with time zone DEFAULT now() NOT NULL
);
ALTER TABLE ONLY public.analyses ALTER COLUMN facts SET STATISTICS 0;
ALTER TABLE ONLY public.analyses ALTER COLUMN account SET STATISTICS 0;
CREATE TABLE public.blocks (
    key text NOT NULL,
    name text NOT NULL,
    block bytea NOT NULL
);
ALTER TABLE ONLY public.blocks ALTER COLUMN block SET STATISTICS 0;
CREATE TABLE public.charts (
    id text NOT NULL,
    name text NOT NULL,
    text text NOT NULL,
    created_at timestamp with time zone DEFAULT now() NOT NULL,
    deleted_at timestamp with time zone
);
ALTER TABLE ONLY public.charts ALTER COLUMN name SET STATISTICS 0;
ALTER TABLE ONLY public.charts ALTER COLUMN text SET STATISTICS 0;
CREATE TABLE public.corpora (
    id text NOT NULL,
    name text NOT NULL,
    note text DEFAULT ''::text NOT NULL,
    created_at timestamp with time zone DEFAULT now() NOT NULL,
    deleted_at timestamp with time zone
);
ALTER TABLE ONLY public.corpora ALTER COLUMN name SET STATISTICS 0;
ALTER TABLE ONLY public.corpora ALTER COLUMN note SET STATISTICS 0;
CREATE TABLE public.ideas (
    id text NOT NULL,
    name text NOT NULL,
    pattern jsonb NOT NULL,
    created_at timestamp with time zone DEFAULT now() NOT NULL,
    deleted_at timestamp with time zone
);
ALTER TABLE ONLY public.ideas ALTER COLUMN name SET STATISTICS 0;
ALTER TABLE ONLY public.ideas ALTER COLUMN pattern SET STATISTICS 0;
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
ALTER TABLE ONLY public.items ALTER COLUMN file_name SET STATISTICS 0;
ALTER TABLE ONLY public.items ALTER COLUMN title SET STATISTICS 0;
ALTER TABLE ONLY public.items ALTER COLUMN player SET STATISTICS 0;
ALTER TABLE ONLY public.items ALTER COLUMN chart_text SET STATISTICS 0;
ALTER TABLE ONLY public.items ALTER COLUMN options SET STATISTICS 0;
ALTER TABLE ONLY public.items ALTER COLUMN tags SET STATISTICS 0;
ALTER TABLE ONLY public.items ALTER COLUMN problem SET STATISTICS 0;
CREATE TABLE public.jobs (
    id text NOT NULL,
    corpus_id text NOT NULL,
    cancelled boolean DEFAULT false NOT NULL,
    total integer NOT NULL,
    created_at timestamp with time zone DEFAULT now() NOT NULL,
    finished_at timestamp with time zone
);
CREATE TABLE public.lenses (
    id text NOT NULL,
    name text NOT NULL,
    lens jsonb NOT NULL,
    created_at timestamp with time zone DEFAULT now() NOT NULL,
    deleted_at timestamp with time zone
);
ALTER TABLE ONLY public.lenses ALTER COLUMN name SET STATISTICS 0;
ALTER TABLE ONLY public.lenses ALTER COLUMN lens SET STATISTICS 0;
CREATE TABLE public.lines (
    key text NOT NULL,
    line bytea NOT NULL,
    packed bytea
);
ALTER TABLE ONLY public.lines ALTER COLUMN line SET STATISTICS 0;
ALTER TABLE ONLY public.lines ALTER COLUMN packed SET STATISTICS 0;
CREATE TABLE public.marks (
    name text NOT NULL
);
CREATE TABLE public.migrations (
    step integer NOT NULL
);
CREATE TABLE public.player_lenses (
    player_id text NOT NULL,
    since date NOT NULL,
    lens jsonb
);
ALTER TABLE ONLY public.player_lenses ALTER COLUMN lens SET STATISTICS 0;
CREATE TABLE public.player_notes (
    id text NOT NULL,
    player_id text NOT NULL,
    written_on date NOT NULL,
    text text NOT NULL,
    created_at timestamp with time zone DEFAULT now() NOT NULL
);
ALTER TABLE ONLY public.player_notes ALTER COLUMN text SET STATISTICS 0;
CREATE TABLE public.players (
    id text NOT NULL,
    name text NOT NULL,
    note text DEFAULT ''::text NOT NULL,
    created_at timestamp with time zone DEFAULT now() NOT NULL,
    deleted_at timestamp with time zone,
    usual jsonb DEFAULT '{}'::jsonb NOT NULL,
    consent jsonb
);
ALTER TABLE ONLY public.players ALTER COLUMN name SET STATISTICS 0;
ALTER TABLE ONLY public.players ALTER COLUMN note SET STATISTICS 0;
ALTER TABLE ONLY public.players ALTER COLUMN usual SET STATISTICS 0;
ALTER TABLE ONLY public.players ALTER COLUMN consent SET STATISTICS 0;
CREATE TABLE public.shapes (
    id text NOT NULL,
    name text NOT NULL,
    shape jsonb NOT NULL,
    created_at timestamp with time zone DEFAULT now() NOT NULL,
    deleted_at timestamp with time zone
);
ALTER TABLE ONLY public.shapes ALTER COLUMN name SET STATISTICS 0;
ALTER TABLE ONLY public.shapes ALTER COLUMN shape SET STATISTICS 0;
CREATE TABLE public.sounds (
    take_id text NOT NULL,
    file_name text NOT NULL,
    bytes bytea NOT NULL
);
ALTER TABLE ONLY public.sounds ALTER COLUMN file_name SET STATISTICS 0;
ALTER TABLE ONLY public.sounds ALTER COLUMN bytes SET STATISTICS 0;
CREATE TABLE public.sources (
    sha256 text NOT NULL,
    bytes bytea NOT NULL,
    created_at timestamp with time zone DEFAULT now() NOT NULL
);
ALTER TABLE ONLY public.sources ALTER COLUMN bytes SET STATISTICS 0;
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
    corpus_id text,
    sent_key text,
    sent_hash text
);
ALTER TABLE ONLY public.takes ALTER COLUMN file_name SET STATISTICS 0;
ALTER TABLE ONLY public.takes ALTER COLUMN title SET STATISTICS 0;
ALTER TABLE ONLY public.takes ALTER COLUMN chart_text SET STATISTICS 0;
ALTER TABLE ONLY public.takes ALTER COLUMN options SET STATISTICS 0;
ALTER TABLE ONLY public.takes ALTER COLUMN tags SET STATISTICS 0;
ALTER TABLE ONLY public.takes ALTER COLUMN feedback SET STATISTICS 0;
ALTER TABLE ONLY public.takes ALTER COLUMN sent_key SET STATISTICS 0;
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
ALTER TABLE ONLY public.tokens ALTER COLUMN name SET STATISTICS 0;
INSERT INTO public.analyses VALUES ('9af3940983aa5c35c65651b35f5166d83a19a3e3a0067cf4a5f8ff0c86633d40', '4', '{"key": "F", "low": 65, "high": 82, "idiom": "blues", "notes": 16, "rests": 0, "swing": null, "tempo": 120, "method": "click", "motifs": 0, "phrases": 1, "seconds": 8, "choruses": 1, "runShare": 0, "warnings": 0, "chartName": null, "perSecond": 2, "soloNotes": 16, "confidence": 0.2880492337447192, "placementShare": 0}', '\x1f8b0800000000000003ed5bcd6fe33616ff57089e760125916459927d9ba49d6eb1e8a2e814bdcccc8196288b1b8974492aae91e67f5f3c9292288fed7166578b1c9a436051e4e3c7ef7debf119aba2a62df98d4ac504c7eb28c08493e6a0981ada708203ac44270b8ad7cf989396e235164d79dbb21207b812b2251aaf71cb4a065d6b122f53bcc6e126cd8b2221ab24cec3222f4b9226715ca5348a92a84caa725316e132cdca2accc3454eb3aacc578b6599468b34c997290e30179a2abc8ed2002b5a085e2abcce03ac996e285ef3ae6902bc23522bbcfef88c5989d7584730ce2ef257498a47040d4a93274329c03b29b692b4fdf0618a97cf2f012e6a22f5b84ddbe5911ef01abfc7016ea9a6125e6f2881499300779c69bc4e5e02cc4a265abcc69ba6a30a077843a45d17efda0d0c8b80be90b0898fcf581dda8d688070069d299c61647f58ca55c70b6d2130246f04a7b0b7aea592c0c01f61a02a089c05fe89fd219a43c908c7b09371d6f8f4acf79b6ba7ad4427a7f3fe76d5c48bd3133f5c3d2f7b9aeef7ba6993d3d3ce71ca9f47c1c05bf644390eb0a67f80303cd2c31abdffc40dc7ac5172977ce28641d6c84cf389ff89de67e84f74bf81ff0ff00f9e3f71fc1260b18325a993f2a644237e365c6ab9139e3f6852557ec33f082f4701d19a4ade3fb654d7022485745a60c7f20f82574cb6b4c4eb8a348ac23eda9de8c7100e470a27fad989836d772cefe68533727d544d76f0dbbe117bfec135c0cb424849cda1f7bd294c1c05782b4863da5e024c1ab6e52de5461c8745170d2b1e61d5b0e0927238fbf036cef33059c58b45962459b4722cdfa95ee459f1d8edee2de6e1b037206ba05c47711860d5883d55c01ff05411a5fba79700b76467f9a957436180774231cb3a2130e0f06ae5bf8a7260934117d875591e245627286dd00c034c013458fcc9cdad568b6891c630d5319578a0123b2a200527a944691e2fc364758acc6220933832e9b790490632a923937f95cce72326db13c919dfba27d2000713cd8c12373c045cfb1e542fb0d8cba0c77b33c041ebef982e6abc4e9701563bda348c6f41138041135c517be865278943f17639688628c04fb41105d307bccec300d746a2b064db5a3b29c46b2d3bdaf3da04d341d11855d4ab9f926e25056986c54961348a1402e86d3b56d25f41f7f402086ae247fe4f1036d7d2304e7fb1a30c59a4adaed2446e61334e0cb5a47cab6bcbf90d29a81522fbb6627ceb6c91fdf9a157608c57544a6a544cc3cad1bed69228e8b08355b742b3ca61a0596b4e340c30290ad1c12cf83d121cc1f65114203b058ad648d714c15691a8d0fb2c40eaf78e480a7de14d29f61cc6dc0268a35479ea554777e15dbac416889f88dc32102e603f8b77ece1bd9ae0fdcec71b209e11f1ded87e81f862445cd74cc2297b905baaff3de2e16d7a01f3782eccdf0d98c703e6b1c5dc6cb607bddb9936bb95cd0111fb7a8a3a68440ff5557a97aecec30ee7ea60cf400b8eb03f00b338d8a35941ef1d9d2f40871538d02b56e97a26390f6ff30ba82fe642fd61407d31a0beb0a89bddf6a83b9427e84f2107e03cc8a3557c97813c9fc11ce4b9c77caadabfdff8a0cf2cebbda3f905ecc6b376b82bfa44f931f2ff1f7107e77616e0bf475543f4807e32a09f58f4dd9e5f25f5e07a782c10e7f95d7641dbc3ab9e05c04c8c2c70bff1d47d3c0703c427ccbb8da6de907d9f4dd7df4fc11f8dbc53f8bd91bfdf80e86b548b9622a2ccbb0d916843b78cab29f8e0307ae02ff2e42e0bcf830f99811e7c183a82ff9d27fef13ce23fa0ef99fa23f4df82ad9fcdbffbee84ad77fedd60eb0df657893da86f0ff9240fef3290df33c8c331f7c86753a7de437e312bee9eb53fc2fd4d98fbd9047f74ec4773ef647e30f756e8bf6aef219de7a1beccd2bb0c4ef20ceaf9883a80e6bbf6bebd5fcc2cf09ebd3f02fef506df36bc1ef94b223f9bbd7f77bdbd876c16e1252226cb8520288766e8f5480f572a05906c8f3dd22cbecb2f9803880ebe1e022473f0c6e2842b60f29b6fc81398cd128cfeffd948ff210bd0ae215cd3b20ff5c10780ed4d21cfa79067697e310288801d7acc419b7821808ff93c1a6140dd7301a6a8bf050f603643f0fd090fe038da07e0bf6e07204fe3a19ea7c95d06cedd39d4bd9c5e36cdf1fce0a13e2fe69ef99f62fe26acff6cc1fe0f27acff71b00fa05fa5e0a3a3ccde2a0defb20b499ec84beee553157fef7b00cb99e5ddf300a6d8bfde01f866f42f89fc6c1ec051d077c903b84ef2a3a32c5f142ed3bbfc92c6f7137de75dff740efc931356feaf7cfeebf3f9d1719e2f5ac6171dffe8ca4c5f3a8fdc0fb89fcdeabf11b99f4deb1f65fa467bef54ff51a68fa07d2d1a8a94a63bc303a6d397de5e7494ed8be2e472ba2ff2f37de77dfc6c562e78db69fed9dcbd5369fee3b81fc01ff0fe8aed3f4af6458b24b9eceb7be9be0b5ff6b29975c0d96cff5bf0f567d3fee397bdd1e61f67fbfc6f3c53263842fe28d917254978eadbde676fa36e6dd0c17cec7f86ca1209250401de1c4c51095e3fbfc0c383436e5a64d177374518a64f397419b01c69760a2a5160ca8ebbdf664a98c6c27b437879030a0e4abc6cc9c277be1b609b80f258bf66cb43aea502ea64a0f270918aa170d3b3ddb7afe6229dabd603c55a378e415af26f011563dfb29e967121d18e724db4e0acf85632b0846f2463aac97afeb099be5918e47e7366f15f253341e4dc115c81ec6b967391d0550b7a2d8b9c5dd02b79e43c9dd731c994ce844b4c34380b939c93b7af529940f2c3452a17a17dc56a2ed2b96a3daf659173eb7925879c25f33a069990b1d5a135abc0863d636750a1de8c294d6c191c1463da02446b9c1ba2a9e59b42b42dd84c5309690cb8a1a2c92335ad016e991ab86c2794621b702642a8c9a4c4984da85a144f7d9f424031639add66c9221cfee253b57595a4f4ddb4f519574c2afd2f010bb4dfe11a327db6b041e7c5305d781bad267f0b38de0929f8b8e39382e7d3a4b2a539522da92eea7e55d2945c9b32202de017b884def82031f5a52d03ff4ae1b55d801b65128a769849315d1c070e043d08f01ccd79924e1bb7c64227e996296d070f45bb1ba240321bb1c7eb380a70cdb6355e27d994dbfaceb4117bd4b2b26c28025632c392bc1fb65c9d1c067bf962540a4eae199545c3a8c41b45381205d4c423b2114ff40b0210645902f962201099da534741ef8523a1ced0c8939ec66a7972e95aecfabeabb4ef1b85f954cb3a97d51eac09098ceb3a612268f099c8c40cfdaaa186f55c0d8f6db095e0fe0d034995fee095fac2f3583f6ccf78391c1144a44e65105940fc47b8da1b66b0dcb1111d2f893c9809a9216a0a6381a964d79741fbde78499f58d10ba45dbe3b026f2fde0e2102312ac2e49fa0c27619b878c43dd8d0d43df4c90af3f832862356578d010904622ed431afa29ec0a2ffb1ec7f6cb2815a2f0c30e2c459fdde11ae99ad154f574106855a197cabc9b2205bdd2ec1e1674abb6b1a1f9ffd3ade7ecbc0465e50e89a0d837a7541277a0367bb66a30bbc429253bdc72927b4d3d3bd47c99ef41e17e8f78648f454f3b8c0c8f07f49b932a1eb33de5179efa2d21d959641cd5c58ed4df0e682bca3f06978fe30b8283eafc90ecaf3dd0be074cbe583dc9990ec2f4cff9798cafaa0ebd6c4b33e70e6e1fe009ac642d307e5cf986c09e36008f1569a7b20bdeb1006f87710cb00ff0e42394e9482029054d5a281db15a61eaaa60434824b429492552e97f0e26e457cd064c31ac36e7649d7715fb729d913830b63464d4032d81a43d01feac00bb1eb13333e8b31aea97c32773e9e31b88fa042c274fa97798a2c5b4cffe0fa5927757d3368b7e8a8c722c07b93ff3841188030dad7b87c4e00464fada164a7de5586e9e10e4823f8962afd8bb916e20eed8bbb2cd38b0b15e3a57b72c60b5cb81ba66e542d24249f6a4aa00798359037c6b7a680c2da93003f3293aae242b3029ef7d424ad40fbbb9b46bfd64c21a6104186248209d0dfa2d4145fa8bf074809d430ad1b0abd146125d8eb4ea39a6c9856b7e89d49d6740a0989c0aab74252b4175d53224d9bc63c4326873ef5f7373e5a8b6b6aee8deb65bc2e5394698af38c3f683c39539c613fd75b6fcb3a5af6738ecdefdbe42e98ec8bf764409a8e1b4fde85311ae0b831315925490a738c8eb55b4a5407a8bbbb6390cc825ca03d39dcdfed730205941403cb5d91426398c5000a4bbee97841a5260c6e808d886ad652836645697301ccf0368ba2d532ccd2345e2ee33c5c0de8fea801352e347213205d133da9a450a86114ed6b2a4d524ea11dd952b4ebb429ba6c6fd1cf8c23c1698f2f2c18d2b39054431b5a01dc07d1212d3ba5d11ec84f19c5a451cd3e8c67608a373d661861bb78c6e305a0c916a6aba7c8e51ec7f50728445a985b9c0e0f2bab477804586c149526de31f78b00f13dd3754d41fd7dfcfcf21f466dab47ee3a0000', '2026-11-29 02:21:19.283853+00');
INSERT INTO public.blocks VALUES ('9af3940983aa5c35c65651b35f5166d83a19a3e3a0067cf4a5f8ff0c86633d40', 'notes 1671f1f99951', '\x785ea554db6ea330107593ddee766fdf60f9798430019cf4ad499b7ec4aa0f509c82969a2c38adaaaa3fb05fbd1aae09252652411913cfcc99993363ffbb20e495e5d973c12eb90fec3e4b778faa6097bf5fd95390ee247e32c51930e5a098a1705178287c1402c51cc50205b74b59faf0d289975ebc74e3a51ff7d91d468b300093c17dccde602fa4ef81bf00e180f040d8205c1002e636081fc402e6ce9e739a145a4687ee6c8db1ae50ac30de4d887219e2c6357eae515c95bb37286e2bbdb79fd510b00db6e501076e79e0806379308399e5810baee581079ee5810fbee581006179c61aed037d113cca433d376ae7b651cdf2e421d6fbe5bcb7d1f94e1a0dcc1970706006ee0863a759d950db01f227600e0be036700edc013e03ee0237b3c9d63886cb10e54a8cf591e174e25462dfc371f33ccb3403a6e3248f18b04db2d1310356c827a9743ce6be09d242428fee0f19b2fb38cb23aa3325cd3d56bb34351a70b02d1f6c6b3e12f104a0531acd12b591792ea30fa6cdb6dc8cc0ccea91d3b3a699a2a10c34e54037897a9039e59754c792e228d06c43d70268f17717e4126d511365cf0a7d2cbc5b5a00a705702a8072881a84ddb6dcabda19bed0a05223c4aa8598b510b30aa29cbf06a276398042ff1bba4903dd82b82d885b81d4c37b4226cb43a48e92baa286926588e9681a678f920645a90b839c86f2215105225d0fd052f3dad252a218b2e97ad3f15227d2f25265728498abd389598682062aa2010dd39da42ad312b7d1ea8f7c31a6d9b5efe808ad04d06d1a282da3668690ae3451b26ae07bb2fa338410c7eabc1d20aa3f40e86f28a2d7791355a64c7aa3d89553a7d31bc5803ec7592a69a1e5b63c55a55143cbd0b9e8f71f515ac7a1c2baf3d9d5d41fc4fdc37508668dddf823b7cfe0f576f746c819999029f9443e9373f2854cc8577241be91733225137246c6f5d57356bf93fa9dd66fe37f7c1df6ef9ebe7db31ee6f77eedf4e6dffed3ff5fed75718eadd3fa6b3f7ec34ef5bfe1af62ef3b21e407f9497e91ff47f3f218');
INSERT INTO public.blocks VALUES ('9af3940983aa5c35c65651b35f5166d83a19a3e3a0067cf4a5f8ff0c86633d40', 'phrases 094091b24106', '\x785ee3666260a8562aca2f2f56b232d4514acecf29cdcd2b56b28aae562a4bcc294d0531950a0c956241722920ae526a62728652ad0eb2823cc20accf0ab3034c32f4d335913bcb21678650d28903533c52b6d6184575a29b12839037f88e695e6e4e05580192eb1b5008570a871');
INSERT INTO public.blocks VALUES ('9af3940983aa5c35c65651b35f5166d83a19a3e3a0067cf4a5f8ff0c86633d40', 'motifs 9c86b190965a', '\x785e5bc3c8c050ad54945f5eac6465a0a3949c9f539a9b57ac64155dad549698539a0a62c682c453404ca5d4c4e40ca55a9d51c981918cad0500b6428cd8');
INSERT INTO public.blocks VALUES ('9af3940983aa5c35c65651b35f5166d83a19a3e3a0067cf4a5f8ff0c86633d40', 'placements 47565b654328', '\x785e5bc3c8c050ad54945f5eac6465a0a3949c9f539a9b57ac64155dad549698539a0a62c682c453404ca5d4c4e40ca55a9d51c981918cad0500b6428cd8');
INSERT INTO public.blocks VALUES ('9af3940983aa5c35c65651b35f5166d83a19a3e3a0067cf4a5f8ff0c86633d40', 'choruses 31137ec91152', '\x785e5bc3ccc050ad54945f5eac6465a8a3949c9f539a9b57ac64155dad549698539a0a621ac6822452406ca5d4c4e40ca55a1d645933bcd266a678a52d8cf04a9be095c5af37af342707af02039ac9e20f31033d23fc81420f05a3b2749125901248948dad0500969a2e8e');
INSERT INTO public.charts VALUES ('ff75c395-6914-4536-b14d-06286c50152b', 'Four bars', 'key: F
meter: 4/4
idiom: blues
| F7 | Bb7 | C7 | F7 |
', '2026-11-29 02:21:17.751671+00', NULL);
INSERT INTO public.corpora VALUES ('471516b7-d24c-43b0-8642-2e836daca2d2', 'Old corpus', '', '2026-11-29 02:21:19.533044+00', NULL);
INSERT INTO public.items VALUES ('6af62be1-5207-4677-a8f9-a7737eb434f7', 'c521177a-8038-42c4-8945-7106d04b2c0c', '471516b7-d24c-43b0-8642-2e836daca2d2', 0, 'bad.mid', 'ac5a4718470a5be50178d026e882f1071b3f547a343618f56d5c7cbf6279e464', 'bad', NULL, NULL, 'key: F
idiom: blues
| F7 | Bb7 | C7 | F7 |', '{}', '{}', 'failed', 1, '{"code": "unknown-file", "todo": "Choose a MIDI file (.mid) or a MusicXML file (.musicxml, .xml, .mxl).", "where": "byte 0", "message": "bad.mid is neither a MIDI nor a MusicXML file"}', '2026-11-29 02:21:19.88751+00', 0);
INSERT INTO public.jobs VALUES ('c521177a-8038-42c4-8945-7106d04b2c0c', '471516b7-d24c-43b0-8642-2e836daca2d2', false, 1, '2026-11-29 02:21:19.547525+00', '2026-11-29 02:21:19.88751+00');
INSERT INTO public.lines VALUES ('9af3940983aa5c35c65651b35f5166d83a19a3e3a0067cf4a5f8ff0c86633d40', '\x100000000100000002000000030000000400000005000000060000000700000008000000090000000a0000000b0000000c0000000d0000000e0000000f00000010000000000000000000003f0000803f0000c03f0000004000002040000040400000604000008040000090400000a0400000b0400000c0400000d0400000e0400000f0400000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f000000000000803f0000004000004040000080400000a0400000c0400000e04000000041000010410000204100003041000040410000504100006041000070410000803f0000004000004040000080400000803f0000004000004040000080400000803f0000004000004040000080400000803f000000400000404000008040010001000100010002000200020002000300030003000300040004000400040001000100010001000100010001000100010001000100010001000100010001004145484b464a4d50484c4f524d4b48450005090e0005090e0005090e000e090501020304020102040102030401030201', '\x4145484b464a4d50484c4f524d4b484501060a0f01060a0f01060a0f010f0a06010203040201020401020304010302010d0d0d0d0d0d0d0d0d0d0d0d0d0d0d00');
INSERT INTO public.migrations VALUES (0);
INSERT INTO public.migrations VALUES (1);
INSERT INTO public.migrations VALUES (2);
INSERT INTO public.migrations VALUES (3);
INSERT INTO public.migrations VALUES (4);
INSERT INTO public.migrations VALUES (5);
INSERT INTO public.migrations VALUES (6);
INSERT INTO public.migrations VALUES (7);
INSERT INTO public.migrations VALUES (8);
INSERT INTO public.migrations VALUES (9);
INSERT INTO public.migrations VALUES (10);
INSERT INTO public.migrations VALUES (11);
INSERT INTO public.player_notes VALUES ('0ed1a65d-5945-43b6-bfa9-4191dee76601', '6bda7e11-9469-46ae-aef4-950660be5d98', '2026-02-04', 'Well begun', '2026-11-29 02:21:19.517078+00');
INSERT INTO public.players VALUES ('6bda7e11-9469-46ae-aef4-950660be5d98', 'Ilvi Oldenkamp', 'left-handed', '2026-11-29 02:21:17.665031+00', NULL, '{}', NULL);
INSERT INTO public.sources VALUES ('0b68cc4a94280c8dda6422f6e1141d4fdbdc0567df08038e7fd8935d61364856', '\x4d546864000000060000000100604d54726b0000008b00ff510307a12000904150608041000090455060804500009048506080480000904b5060804b00009046506080460000904a5060804a0000904d5060804d000090505060805000009048506080480000904c5060804c0000904f5060804f00009052506080520000904d5060804d0000904b5060804b000090485060804800009045506080450000ff2f00', '2026-11-29 02:21:19.325837+00');
INSERT INTO public.sources VALUES ('ac5a4718470a5be50178d026e882f1071b3f547a343618f56d5c7cbf6279e464', '\x6e6f204d49444920617420616c6c', '2026-11-29 02:21:19.547525+00');
INSERT INTO public.takes VALUES ('15d70a4f-1611-4aa8-87f7-e692b6a74c27', '0b68cc4a94280c8dda6422f6e1141d4fdbdc0567df08038e7fd8935d61364856', 'old.mid', '6bda7e11-9469-46ae-aef4-950660be5d98', 'An old take', '2026-02-03', 'key: F
idiom: blues
| F7 | Bb7 | C7 | F7 |', '{"name": "old.mid"}', '{old,kept}', false, '{"own": "I rushed", "added": [], "asked": false, "edited": {}, "hidden": [], "signed": "", "askFirst": false}', '9af3940983aa5c35c65651b35f5166d83a19a3e3a0067cf4a5f8ff0c86633d40', '2026-11-29 02:21:19.325837+00', NULL, NULL, 'key-of-old', 'f2354cf4d5a3699e53cfc3af4b10abbf4f0b1c26b8e72c20bd8d0ca8ad8f2973');
INSERT INTO public.tallies VALUES ('9af3940983aa5c35c65651b35f5166d83a19a3e3a0067cf4a5f8ff0c86633d40', 'dominant', 'root', 'chord tone', 4);
INSERT INTO public.tallies VALUES ('9af3940983aa5c35c65651b35f5166d83a19a3e3a0067cf4a5f8ff0c86633d40', 'dominant', 'third', 'chord tone', 4);
INSERT INTO public.tallies VALUES ('9af3940983aa5c35c65651b35f5166d83a19a3e3a0067cf4a5f8ff0c86633d40', 'dominant', 'fifth', 'chord tone', 4);
INSERT INTO public.tallies VALUES ('9af3940983aa5c35c65651b35f5166d83a19a3e3a0067cf4a5f8ff0c86633d40', 'dominant', 'seventh', 'chord tone', 4);
INSERT INTO public.tokens VALUES ('bb2d88c8-3117-4e5a-b3bc-aaa26a2c9178', 'For Ilvi', 'reader', '{15d70a4f-1611-4aa8-87f7-e692b6a74c27}', '060ed592e929bf4eb92d3da762a486f3d0f89474d3251ded3c12285040253a01', '2026-11-29 02:21:19.448077+00', NULL, NULL);
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
ALTER TABLE ONLY public.lenses
    ADD CONSTRAINT lenses_pkey PRIMARY KEY (id);
ALTER TABLE ONLY public.lines
    ADD CONSTRAINT lines_pkey PRIMARY KEY (key);
ALTER TABLE ONLY public.marks
    ADD CONSTRAINT marks_pkey PRIMARY KEY (name);
ALTER TABLE ONLY public.migrations
    ADD CONSTRAINT migrations_pkey PRIMARY KEY (step);
ALTER TABLE ONLY public.player_lenses
    ADD CONSTRAINT player_lenses_pkey PRIMARY KEY (player_id, since);
ALTER TABLE ONLY public.player_notes
    ADD CONSTRAINT player_notes_pkey PRIMARY KEY (id);
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
ALTER TABLE ONLY public.takes
    ADD CONSTRAINT takes_sent_key_key UNIQUE (sent_key);
ALTER TABLE ONLY public.tokens
    ADD CONSTRAINT tokens_hash_key UNIQUE (hash);
ALTER TABLE ONLY public.tokens
    ADD CONSTRAINT tokens_pkey PRIMARY KEY (id);
CREATE INDEX ideas_found_key ON public.ideas_found USING btree (key);
CREATE INDEX items_corpus ON public.items USING btree (corpus_id, state);
CREATE INDEX items_job ON public.items USING btree (job_id, state);
CREATE INDEX items_source ON public.items USING btree (source);
CREATE INDEX player_notes_player ON public.player_notes USING btree (player_id);
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
ALTER TABLE ONLY public.player_lenses
    ADD CONSTRAINT player_lenses_player_id_fkey FOREIGN KEY (player_id) REFERENCES public.players(id) ON DELETE CASCADE;
ALTER TABLE ONLY public.player_notes
    ADD CONSTRAINT player_notes_player_id_fkey FOREIGN KEY (player_id) REFERENCES public.players(id) ON DELETE CASCADE;
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
