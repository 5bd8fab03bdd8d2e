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
CREATE TABLE public.lenses (
    id text NOT NULL,
    name text NOT NULL,
    lens jsonb NOT NULL,
    created_at timestamp with time zone DEFAULT now() NOT NULL,
    deleted_at timestamp with time zone
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
CREATE TABLE public.player_lenses (
    player_id text NOT NULL,
    since date NOT NULL,
    lens jsonb
);
CREATE TABLE public.player_notes (
    id text NOT NULL,
    player_id text NOT NULL,
    written_on date NOT NULL,
    text text NOT NULL,
    created_at timestamp with time zone DEFAULT now() NOT NULL
);
CREATE TABLE public.players (
    id text NOT NULL,
    name text NOT NULL,
    note text DEFAULT ''::text NOT NULL,
    created_at timestamp with time zone DEFAULT now() NOT NULL,
    deleted_at timestamp with time zone,
    usual jsonb DEFAULT '{}'::jsonb NOT NULL,
    consent jsonb
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
INSERT INTO public.analyses VALUES ('9af3940983aa5c35c65651b35f5166d83a19a3e3a0067cf4a5f8ff0c86633d40', '4', '{"key": "F", "low": 65, "high": 82, "idiom": "blues", "notes": 16, "rests": 0, "swing": null, "tempo": 120, "method": "click", "motifs": 0, "phrases": 1, "seconds": 8, "choruses": 1, "runShare": 0, "warnings": 0, "chartName": null, "perSecond": 2, "soloNotes": 16, "confidence": 0.5164829862266778, "placementShare": 0}', '\x1f8b0800000000000003ed5bcd6fe33616ff57089e760125966459927d9ba49d6eb1e8a2e80c7a9999032dd1163712e921a9b8469aff7df1484aa21cdbe3ccae16393487c0a4c8c78fdffbd6d3135645451bf23b958a098e5751800927f54131d5f7e104075889561614af9e30270dc52b2ceaf2b661250ef046c88668bcc20d2b190cad48bc48f10a87eb342f8a842c93380f8bbc2c499ac4f126a551944465b229d765112ed2acdc847938cf69b629f3e57c51a6d13c4df2458a03cc85a60aafa234c08a1682970aaff2006ba66b8a57bcadeb00ef88d40aaf3e3d6156e215d611ccb39bfc2849f180a04369f26828057827c55692a69bde2ff1fce539c04545a41e8e69873cd0035ee1f738c00dd554c2e33525b06812e096338d57c9738059c9448357785db754e100af89b4fbe26db3866911d017120ef1e909ab43b3163510ce6030853b8cec0f4b79d3f2425b080cc91bc1299cad6da82430f16798a80a0277817f617f88fa5032c2319c6458353ebdeaddfada6537a295e3757fbf6ae1f9e985efaf5e973d8ecf7bddb2c9e965a7b8e52f8360e02d7ba41c0758d33f40181ee86185de7fe68663562899259fb961901532cb7ce67fa2f719fa13ddade1ff3dfc83f6678e9f032c76b0257552de94a8c5af864b2d7742fb83269b8ddff10fc2cb4140b4a69277cd86ea4a80a490560bec58fe5ef00d930d2df16a436a45e11ccd4e747308872b851bfde2c4c1f63b9677ebc21db931aa223bf86d9f883dffe03ae06121a4a4e6d2bbd114168e02bc15a4367dcf012635dbf28672238efda68b9a150fb06bd8704939dc7d78bb88d2248f97791ac7699a65b96581567522cf8a87767767310ffbb3015903e52a8ac300ab5aeca902fe80d68628ddb59e03dc909de5a74e0d8501de09c52ceb84c080fda3a5ff28ca814d7a5d60f7657990589da0b441330c3005d0405e4f1d6eb98cd345b49ce7b0d63199b827133b322006a7c8e4793e4fe679748acabca792382ae97750497a2aa9a302789ca29266cb2cce168b04ae68c4637b2239e35bd722353030d1cce870c342c0b4ef41f302873df76abcb3021c94fe8ee9a2c2ab741160b5a375cdf8161401d833c115b5775eb69238106f17bd628802fc486b51307dc0ab3c0c7065040a4bb6adb41342bcd2b2a51dab8d20edf58cd1449df629e956521066d89c1446a1482180deb66525fd08aaa7933fd0123ff37f82acb99e9a71fa9b9d65c8226d559526720b877152a825e55b5d59c6af4941ad0cd9a71bc6b7ce14d99f1f3afdc5f8864a498d86a9593998d74a12050376b0eb4668b6711868d6981b0d034c8a42b4b00a7e8f0447707c1405c82e81a215d2154570542436e87d1620f5b52592c25878528a3d8739b700da20549e76d5d12c9ca50b6c81f885c82d03d902f6b378c71edecb11deef7cbc01e20911ef6ced0bc4e703e2ba62126ed983dc52fdef110f6fd30b98c75361feaec73cee318f2de6e6b01de8edcef4d9a3ac0f88d8c763d441217aa82fd359ba3c0f3bdcab833d031d38c07e0fcce2608f2605bdf3735e800e3b70a06fd8465713c979789b5f407d3e15eaf73deaf31ef5b945dd9cb643dda13c427f0c3900e7411e2de35906f27c067390e70ef3b16aff71ed833eb1ac777ee60bd88d63ed7057f491f263e4ff3fe20ebeed24c0ff883635d13dfa498f7e62d177677e95d483e7e1b1409ce7b3ec82b687471d0b80991858e06eeda9fb780a06884f98771b4cbd21fb3e99aebf1b833f1879a7f03b237fb706d1d7a8120d454499676b22d19a6e195763f0c161f4c09fe7c92c0bcf830f89810e7c983a80ff8327fef134e2dfa3ef99fa23f4df82ad9fccbffbe184ad77fe5d6feb0df657893da86f0ff9240f6719c8ef19e4e19a3be4b3b153ef213f9f1477cfda1fe1fe26ccfd64823f38f683b97732df9b7b2bf4dfb4f790cdf3505f64e92c839b3c837a3ea00ea0f9aebd6fefe7130bbc67ef8f807fbdc1b71daf47fe92c84f66efdf5d6fef21994578898849722108caa11b463dd0c3954a0124db638f348b67f9057300d1c1b74380640ade989f70054c7af30d7902935982c1ff3f1be9df6701dad5846b5a76a13ef80070bc31e4f918f22ccd2f460011b043873968132f04f0319f4623f4a87b2ec018f5b7e0014c66087e3ce1011c47fb00fcb7ed00e4693cd4f3349965e0dc9d43ddcbe965e31ccf4f1eead362ee99ff31e66fc2fa4f16ecff74c2fa1f07fb00fa550a3e3acaec2dd370965d48f2445e722f1fabf83bdf03584c2cef9e0730c6fef50ec077a37f49e427f3008e82be4b1ec075921f1d65f9a27091cef24b1adf4ff49d77fdd329f04f4e58f9bff2f9afcfe747c779be68115f74fca32b337de93472dfe37e36abff46e47e32ad7f94e91becbd53fd47993e82f695a829529aee0c0f98412fbdbde828db17c5c9e5745fe4e7fbcefbf8d9a45cf0b6d3fc93b97ba7d2fcc7713f80dfe3fd0ddb7f94ec8be64972d9d7f7d27d17deec6513eb80b3d9feb7e0eb4fa6fd87377b83cd3fcef6f9ef78c64c7084fc51b22f4a92f0d4bbbd2fde41ddde608079d9ff048525124a0802bc3e989a12bc7a7a86c6bd436e5c63d10d373518664cd90fe9b11c68b60a0a5160c996bbdf664958c6c27b437879030a0e2abc6cc9c20fbe1b60bb80f250be66ab43aea502eaa4a7727f918aa170d3b1ddf7efe6229dabf603b55a378e411af26f010563dfb39f867121d18e724db4e0acf85e32b085ef24638ac93afeb099be4918e46e7d66f3df243342e4dc155c81ec6bb67391d0551b7a2d8b9cddd02b79e43c9dd731c998ce884b4c343809939c93b76f521941f2d3452a17a17dc56e2ed2b96a3faf659173fb7925879c25f33a061991b1c5a115db800d7bc2cea042bd19539ad83238a8c5b4f587d638d74453cb3785681ab099a610d21870434593076a7a03dc30d573d94e28c5d6e04c8450924989319b50b4281ebb3185805ac634bbcd1751d8ff41bdf78bdaba8da4f4ddb8f7096f9854fa5f023668dfc3d564dcb6b0c1e079bf5c781b2d477f73b8de112978b9e39382f66952d9c25ca996541755b72b692aae4d199016f00b5c426f7e9098f2d286817fa5f0ca6ec0cd3209453bcda4982ece839d90561b57c6c225e996296d27f475ba6ba2401a6bb1c7ab380a70c5b6155e25d998c3bac1b4167bd4b0b2ac2902f631d392bc9bb6589e9c06fb7f312b05c7d6cccaa27e56e2cd221c8902cae011598b47fa8200045696403eef0944b14741ef8523a1ced0c8938ec6727172eb5aecbab1cbb41b1b85f958b33a37d55eac09038cbb3a621ce8f019c7c409ddaea16cf55cdd8eedb0c5dffe4705922afdc1abee85f650326cef78d15f1144a14e4d105940cc47b8da1b66b0dcb1162d2f893c9805a9216a8a61819164db553efb1e78491f59d109a1ddbebb02ef2cde0921ea306ac1e49c56e16dbc085c0ce21a361c758d2e41619acf430862f5d3108440f0e5c21bf328ea08ccbb1f8beec73aeba975c200334edcd5d79670cd6c7978ba0c3228cecae0fd4c9605d9f276014e3e53da7d99f1e9c9afdded8e0c6ce40582aedb30a8570b74623470b6eb36f2ef158f9c1a3d2c39a29d9e1e3d48f668f4b0417f34449fa7ba870d4686ff4bca9509579ff08eca3b1789eea8b40c6ad6c26a6f023617d81d854c7dfb43ef96f8bc265ba8c8770f80d32d97f77267c2b0bf30fd5f622aab83ae1a13c3fac099c6dd01348d85a60bc49f30d912c6c1f8e1ad349f7e74ee4218e0af209601fe0a42392c948202905455a2860f2a4c0d544509680497782825dbb8fcc1b3fb10e283266b561b76b35bba8efbda75c91e197c2366d4042480ad3104fda10ebc10bb2e19e3b318e39aca47f399c7130697115448988eff324f9165f3f11f7c71d64a5dddf4da2d3a1a310ff0dee43c4e1006208cf6356e9e1380c13bab29d9a9771bc3f4f0d9472df8962afd9bf912c45dda8bcf57c61f2b6c182f5dcb192f70db6e98ba5195909070aa28811160d640de18df9aa2096b4f02fcc04c7a8a0bcd0a68efa9495481f6771f177dac98424c21820c49040ba0bf45a929b8507f0f9012a8665ad7144629c24ab0d7ad46155933ad6ed13b93a06915121281556f84a4682fdaba449ad6b56943f6863e76df6c7cb216d7d4d91b77cb785aa610d314e4191fd0786fa620c3bea2b71e9675aeec2b1c9bd3b7095d30d9173f8d01693aee340279dc6934c071a7f9a864274961aed181e71081356f5a5e50a90983afb60648346ba8816343697d018df036c9e78b280ba37996cde7711c273d3e3f6bb8772e34722b205d113daa7f50a86614ed2b2a4d2a4da11dd952b46bb529956c6ed1af8c23c1698710ec1892aa900a436bba01c00ea2455ab64aa33d901f436d929fe620c6b69b924b0fcee1e25fdc5280c55a51694287979f56c1adee99ae2a0a2ae6d397e7ff005b553243453a0000', '2026-11-29 02:20:40.007265+00');
INSERT INTO public.blocks VALUES ('9af3940983aa5c35c65651b35f5166d83a19a3e3a0067cf4a5f8ff0c86633d40', 'notes 1671f1f99951', '\x785ea554db6ea330107593ddee766fdf60f9798430019cf4ad499b7ec4aa0f509c82969a2c38adaaaa3fb05fbd1aae09252652411913cfcc99993363ffbb20e495e5d973c12eb90fec3e4b778faa6097bf5fd95390ee247e32c51930e5a098a1705178287c1402c51cc50205b74b59faf0d289975ebc74e3a51ff7d91d468b300093c17dccde602fa4ef81bf00e180f040d8205c1002e636081fc402e6ce9e739a145a4687ee6c8db1ae50ac30de4d887219e2c6357eae515c95bb37286e2bbdb79fd510b00db6e501076e79e0806379308399e5810baee581079ee5810fbee581006179c61aed037d113cca433d376ae7b651cdf2e421d6fbe5bcb7d1f94e1a0dcc1970706006ee0863a759d950db01f227600e0be036700edc013e03ee0237b3c9d63886cb10e54a8cf591e174e25462dfc371f33ccb3403a6e3248f18b04db2d1310356c827a9743ce6be09d242428fee0f19b2fb38cb23aa3325cd3d56bb34351a70b02d1f6c6b3e12f104a0531acd12b591792ea30fa6cdb6dc8cc0ccea91d3b3a699a2a10c34e54037897a9039e59754c792e228d06c43d70268f17717e4126d511365cf0a7d2cbc5b5a00a705702a8072881a84ddb6dcabda19bed0a05223c4aa8598b510b30aa29cbf06a276398042ff1bba4903dd82b82d885b81d4c37b4226cb43a48e92baa286926588e9681a678f920645a90b839c86f2215105225d0fd052f3dad252a218b2e97ad3f15227d2f25265728498abd389598682062aa2010dd39da42ad312b7d1ea8f7c31a6d9b5efe808ad04d06d1a282da3668690ae3451b26ae07bb2fa338410c7eabc1d20aa3f40e86f28a2d7791355a64c7aa3d89553a7d31bc5803ec7592a69a1e5b63c55a55143cbd0b9e8f71f515ac7a1c2baf3d9d5d41fc4fdc37508668dddf823b7cfe0f576f746c819999029f9443e9373f2854cc8577241be91733225137246c6f5d57356bf93fa9dd66fe37f7c1df6ef9ebe7db31ee6f77eedf4e6dffed3ff5fed75718eadd3fa6b3f7ec34ef5bfe1af62ef3b21e407f9497e91ff47f3f218');
INSERT INTO public.blocks VALUES ('9af3940983aa5c35c65651b35f5166d83a19a3e3a0067cf4a5f8ff0c86633d40', 'phrases 094091b24106', '\x785ee3666260a8562aca2f2f56b232d4514acecf29cdcd2b56b28aae562a4bcc294d0531950a0c956241722920ae526a62728652ad0eb2823cc20accf0ab3034c32f4d335913bcb21678650d28903533c52b6d6184575a29b12839037f88e695e6e4e05580192eb1b5008570a871');
INSERT INTO public.blocks VALUES ('9af3940983aa5c35c65651b35f5166d83a19a3e3a0067cf4a5f8ff0c86633d40', 'motifs 9c86b190965a', '\x785e5bc3c8c050ad54945f5eac6465a0a3949c9f539a9b57ac64155dad549698539a0a62c682c453404ca5d4c4e40ca55a9d51c981918cad0500b6428cd8');
INSERT INTO public.blocks VALUES ('9af3940983aa5c35c65651b35f5166d83a19a3e3a0067cf4a5f8ff0c86633d40', 'placements 47565b654328', '\x785e5bc3c8c050ad54945f5eac6465a0a3949c9f539a9b57ac64155dad549698539a0a62c682c453404ca5d4c4e40ca55a9d51c981918cad0500b6428cd8');
INSERT INTO public.blocks VALUES ('9af3940983aa5c35c65651b35f5166d83a19a3e3a0067cf4a5f8ff0c86633d40', 'choruses 31137ec91152', '\x785e5bc3ccc050ad54945f5eac6465a8a3949c9f539a9b57ac64155dad549698539a0a621ac6822452406ca5d4c4e40ca55a1d645933bcd266a678a52d8cf04a9be095c5af37af342707af02039ac9e20f31033d23fc81420f05a3b2749125901248948dad0500969a2e8e');
INSERT INTO public.charts VALUES ('278c4a03-e097-4f24-bed2-36d0b9c3cf84', 'Four bars', 'key: F
meter: 4/4
idiom: blues
| F7 | Bb7 | C7 | F7 |
', '2026-11-29 02:20:38.771539+00', NULL);
INSERT INTO public.corpora VALUES ('78353440-af50-4d0c-9c43-dbb259ad30ca', 'Old corpus', '', '2026-11-29 02:20:40.206001+00', NULL);
INSERT INTO public.items VALUES ('d5ef7b29-425b-40e8-ab97-c012ae5443f2', '8d18dac0-6283-402d-8f13-92f77b3d9acc', '78353440-af50-4d0c-9c43-dbb259ad30ca', 0, 'bad.mid', 'ac5a4718470a5be50178d026e882f1071b3f547a343618f56d5c7cbf6279e464', 'bad', NULL, NULL, 'key: F
idiom: blues
| F7 | Bb7 | C7 | F7 |', '{}', '{}', 'failed', 1, '{"code": "unknown-file", "todo": "Choose a MIDI file (.mid) or a MusicXML file (.musicxml, .xml, .mxl).", "where": "byte 0", "message": "bad.mid is neither a MIDI nor a MusicXML file"}', '2026-11-29 02:20:40.686473+00', 0);
INSERT INTO public.jobs VALUES ('8d18dac0-6283-402d-8f13-92f77b3d9acc', '78353440-af50-4d0c-9c43-dbb259ad30ca', false, 1, '2026-11-29 02:20:40.298635+00', '2026-11-29 02:20:40.686473+00');
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
INSERT INTO public.player_notes VALUES ('10232e9f-6d72-4cf9-9b18-67c4a96e6215', 'b72c2886-223d-46ea-85fc-b4a2de3ee77e', '2026-02-04', 'Well begun', '2026-11-29 02:20:40.180291+00');
INSERT INTO public.players VALUES ('b72c2886-223d-46ea-85fc-b4a2de3ee77e', 'Ilvi Oldenkamp', 'left-handed', '2026-11-29 02:20:38.549584+00', NULL, '{}', NULL);
INSERT INTO public.sources VALUES ('0b68cc4a94280c8dda6422f6e1141d4fdbdc0567df08038e7fd8935d61364856', '\x4d546864000000060000000100604d54726b0000008b00ff510307a12000904150608041000090455060804500009048506080480000904b5060804b00009046506080460000904a5060804a0000904d5060804d000090505060805000009048506080480000904c5060804c0000904f5060804f00009052506080520000904d5060804d0000904b5060804b000090485060804800009045506080450000ff2f00', '2026-11-29 02:20:40.015837+00');
INSERT INTO public.sources VALUES ('ac5a4718470a5be50178d026e882f1071b3f547a343618f56d5c7cbf6279e464', '\x6e6f204d49444920617420616c6c', '2026-11-29 02:20:40.298635+00');
INSERT INTO public.takes VALUES ('7170db20-a530-4c8d-927c-992a19b5e5a1', '0b68cc4a94280c8dda6422f6e1141d4fdbdc0567df08038e7fd8935d61364856', 'old.mid', 'b72c2886-223d-46ea-85fc-b4a2de3ee77e', 'An old take', '2026-02-03', 'key: F
idiom: blues
| F7 | Bb7 | C7 | F7 |', '{"name": "old.mid"}', '{old,kept}', false, '{"own": "I rushed", "added": [], "asked": false, "edited": {}, "hidden": [], "signed": "", "askFirst": false}', '9af3940983aa5c35c65651b35f5166d83a19a3e3a0067cf4a5f8ff0c86633d40', '2026-11-29 02:20:40.015837+00', NULL, NULL);
INSERT INTO public.tallies VALUES ('9af3940983aa5c35c65651b35f5166d83a19a3e3a0067cf4a5f8ff0c86633d40', 'dominant', 'root', 'chord tone', 4);
INSERT INTO public.tallies VALUES ('9af3940983aa5c35c65651b35f5166d83a19a3e3a0067cf4a5f8ff0c86633d40', 'dominant', 'third', 'chord tone', 4);
INSERT INTO public.tallies VALUES ('9af3940983aa5c35c65651b35f5166d83a19a3e3a0067cf4a5f8ff0c86633d40', 'dominant', 'fifth', 'chord tone', 4);
INSERT INTO public.tallies VALUES ('9af3940983aa5c35c65651b35f5166d83a19a3e3a0067cf4a5f8ff0c86633d40', 'dominant', 'seventh', 'chord tone', 4);
INSERT INTO public.tokens VALUES ('8f591ac2-1164-4762-bfbd-bed6189ffc08', 'For Ilvi', 'reader', '{7170db20-a530-4c8d-927c-992a19b5e5a1}', '60352de0823a798f687f0c2b6a651eac065a4831757533d7d129b499c951d5fa', '2026-11-29 02:20:40.127557+00', NULL, NULL);
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
