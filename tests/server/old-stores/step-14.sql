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
CREATE TABLE public.lessons (
    id text NOT NULL,
    player_id text NOT NULL,
    title text NOT NULL,
    handed_on date NOT NULL,
    wish jsonb NOT NULL,
    created_at timestamp with time zone DEFAULT now() NOT NULL
);
ALTER TABLE ONLY public.lessons ALTER COLUMN title SET STATISTICS 0;
ALTER TABLE ONLY public.lessons ALTER COLUMN wish SET STATISTICS 0;
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
CREATE TABLE public.workers (
    id text NOT NULL,
    seen_at timestamp with time zone NOT NULL
);
INSERT INTO public.analyses VALUES ('9fcb1b9dad1770df29e5692152077457e1c9392919ec25d5b4b45c6178abdd11', '5', '{"key": "F", "low": 65, "high": 82, "idiom": "blues", "meter": "4/4", "notes": 16, "rests": 0, "swing": null, "tempo": 120, "method": "click", "motifs": 0, "phrases": 1, "seconds": 8, "choruses": 1, "runShare": 0, "warnings": 0, "chartName": null, "perSecond": 2, "soloNotes": 16, "confidence": 0.2880492337447192, "warningCodes": [], "placementShare": 0}', '\x1f8b0800000000000003ed5b5f6fdb3812ff2a049fee0025916c5992fdd6a4eddee2b087c5b6d897b60fb44459bc48a44b52f11ad97cf7c390944439b6e3f44e873c6c1e028b228743fee61f47c347acf28a36e4772a15131cafa200134eeabd62aa6fc30b1c60255a9953bc7ac49c3414afb0a88beb861538c0a5900dd178851b5630e85a91d922c12b1cae932ccf63b28c6759986745419278362b131a457154c465b12ef27091a4451966e13ca3695964cbf9a248a27912678b0407980b4d155e45498015cd052f145e6501d64cd714af785bd701de12a9155e7d79c4acc02bac23186799fc2c497e8fa04169f2602805782bc54692a61bde4ff1f4ed29c07945a41e9669bbdcd33d5ee18f38c00dd554c2eb352530691ce096338d57f1538059c1448357785db754e100af89b47cf1b659c3b008e80b098bf8f288d5be598b1a08a7d099c21e46f687a55cb63cd7160243f24a700a6b6b1b2a090cfc1906aa9cc05ee05fd81fa2de178c700c2b19669d1d9ff5767de9b4a568e578dedf2f9a787e7ce2bb8be7650fe3f55e366d7c7cda2976f9dba01878c31e28c701d6f40f50867bba5fa18f5fb99198158a6fe2afdc08c80a9969bef23fd1c714fd896ed7f0ff0efec1f3578e9f022cb6c0923aaa6f4ad4e25723a5563ae1f9932665e937fc83f0625010ada9e4dd63437525405348ab0576227f2778c964430bbc2a49ad28aca3d98a6e0ce1b0a5b0a3df9c3ad87627f26e5ed823d74755640bbfed1bb1e39f5c03bccc8594d46c7ad79bc2c451803782d4a6ed29c0a4661bde506ed4b1673aaf597e0f5c03c305e5b0f7e1f52ccbc278399bcfd3384ea3a513f956752acff2fb767b6b310ffbb5015903e52a9a850156b5d85105f2014f2551ba7b7a0a7043b6569e3a331406782b14b3a2138200f6af96feab280331e96d81e5cbca20b1364169836618600aa001f34717b75ccea3793283a90ea9cc7a2a334705b4e0289528c9668b305e1e2333efc9c48e4cf22364e29e4ce2c8642f92f97620643b2239e31bf7446a9060a29931e24686400e406ab46ca913e28f608941e29e7ab3de79050e4e60cb745ee155b208b0dad2ba667c038621c601165c518b41d14ae240bd5ef486220af003ad45cef41eafb230c09551302cd9a6d24e29075e9e41dcdb1d63993a6b54d08da4a0dcc09c14c6c0482180dea66505fd0ca6a8d347b01a3ff37f82eeb9969a71fa9b1d65c8226d4d972672038b715aa925e51b5d5945a8494ead4ed9b725e31be79aeccf4f9d3d63bca4525263716a560ceeb6924441872d70dd08cd4a0789668dd9d130c024cf450bb3e08f487004cb475180ec14285a215d51044b45a2441fd300a9ef2d9114fac29b42ec388cb906d00625f3acad8e6ec29b04221300e21722370c740da4d1e23df3f05e8ef07ee7e30d104f8878e77b9f213e1f10d71593b0cb1ee496ea7f8f78789d9cc17c3615e6ef7acc673de6338bb9596c077abb356d7629eb3d22f6f5187530901eeacbe426599e861df6d5c19e82511c60bf036171b0479382dec53dcf40070e1ce8252b7535919e87d7d919d4e753a17ed7a33eef519f5bd4cd6a3bd41dca23f4c79003701ee4d1727693823e9fc01cf4b9c37c6cda3fac7dd027d6f52eee7c06bb09b41dee8a3e507e88fcff47dd21d69d04f80fa8ac89eed18f7bf4638bbe5bf3abb41e22114f04665976939eb1f6f0aa130170138308dcae3d733f9b42006647dcbb3d5cbd21ff3e99adbf1d833f387967f03b277fbb06d5d7a8120d454499776b22d19a6e185763f0217ef4c09f67f14d1a9e061f12051df8307400ffbda7feb369d4bf47df73f507e8bf055f3f597cf7fe88af77f15defeb0df617a93d986f0ff9380b6f52d0df13c8c33677c8a7e3a0de437e3e29ee9eb73fc0fd4db8fbc9147f08ec0777ef74be77f756e95ff4f790ddf3505fa4c94d0a3b7902f56c401d40f3437bdfdfcf275678cfdf1f00ff7a876f1b5e8ffc39959fccdfbfbbdcdf43728bf0021193f44270288766e8754ff7171a05d06c4f3c927476939d7107703a78f908104f211bf323a1804977bea14860324f30c4ff274ffa776980b635e19a16dd511f620058de18f26c0c799a64674f0011884387395813ef08e0633e8d45e851f7428031ea6f210298cc117c3812011c9ef601f897fd00e4693cd4b324be4921b83b85ba97d34bc7399e9f3cd4a7c5dc73ff63ccdf84f79fecb0ffd311ef7f78d807d02f32f0d141666f998437e999244fe425f7b2b189bff52380c5c4faee450063ec5f1f00fc30fae7547eb208e0e0d0772e02b84cf3a3832c5f142e929bec9cc5f7137da743ff640afce3235efeaf7cfeebf3f9d1619e2f5accce06fed18599be641abdef713f99d57f237a3f99d53fc8f40dfede99fe834c1f41bb4ad414294db746064ca7e7d15e7490ed8b66f1f9745fe4e7fb4ec7f8e9a452f0b6d3fc93857bc7d2fc87e77e00bfc7fb05df7f90ec8be6717c3ed6f7d27d67beeca513db8093d9feb710eb4f66fd872f7b83cf3fccf6f9df78c6427080fc41b22f8ae3f0d8b7bd6fde421d6fd0c17cec7f844213091505015eef4d8d095e3d3ec1c39d436e5c73d175373519a64fd177e9b11c68b60a4a0c60ca96bbdf664a98c6c27b45787105060e2abe6c05c37b3f0cb04d40792867b3d52297520173d253b93b4bc550b8eac4eec7b9394be7227ea076ebca094843fe2da080ec47f8691817126d29d7440bcef21f25032cfc2019535cd6c987cdf44d2220b7eb13ccbf486684c8a92db800d9d7b07396d0450cbd56444e32f44a19394de7754232a6339212731a9c44484ee9db8b544690fc7496ca59685fc1cd593a17f1f35a1139c5cf2b25e42499d709c8888c2d16ad58093eec113b870af5664c6962abe2a036d3d6235ae75c134daddce4a269c0679ac248e3c00d154deea9690d70c3542f655ba1145b43301142892625c66d4211a378e8fae4026a1b93f43a8de761ff373b566a574a4adf8d5b1f71c9a4d2ff12c0a0fd0e5793f1b3850d3acffbe9c2eb6839fa9bc3f68e48c1c71d9f143c1f27952ecc966a49755e755c4953816dca80b4805f10127ae383d8949b360ce22b8557960137ca2414ed3093623a3b0e0208ba1710399afd24ad36618d854ed20d53da0eee6b78d7448166d6628757b328c015db547815a76369eb3ad35aec50c38aa2a60844c90c8bb36ed862797418ace5d9a804825c332a8dfa51b1378a702472289147642d1ee8330270c8b204b2794f2032a5a88e82de0947429da091c51d8de5e228eb5a6cbbbecba4eb1b85d9d8caba90d56eac391298d0752444d0e00b913933745c4349eba91a1edb600bc3fd0b07922afdc9abfc85e7a19cd8eef1a2df2238913a9341640ee73fc2d5ce0883958eb5687941e4de4c480d5153270b4225dbae2ada8fc60bfac0f24e212dfb6e0bbcb5782b841388311126ff0405b78bc09d47dc833d9aba872e59611e9f86e388b555c381040e62eea8635e451d8179f763d1fd58a73db54e1960c491bdfade12ae992d1d4f96410a855a297cab49d3205d5e2f20e0674abb5b1b5f1efd3ade6ec92046dea1d0351b01f5ea828ef406c976cdc616788524c77a0f538e6827c77b0f9a3dea3d30e8f78693e8b1e681c1c8c87f41b93247d747bca5f2d69d4ab7545a01357361b533873777c83b383ef5cf9ffa10c59735d942b5be7b01926ea5bcd73b7324fb0bd3ff25a6b2daebaa31e7591f38f370bb074b63a1e90ee58f986c08e3e008f1469a6b215de8002e9f6b2a1fe0f28ac3a637ff7093e13b286d80bf83ca0e6c24601e245595a8e12a86a996aa28017be152148564a5cb343cb92b149f3459b3da08a365f832d96cd7057b6070bbcc181148155b5709d645ed792eb65ddac617c06e59661004976060c264fc977a662e9d8fffe0ae5a2b7575d5dbbee8a0c73cc03b931d3942186032b6d904844e3d8638aea664abde954625609b6bc13754e9dfcc1d12b769cf2ebe8c6f39948c17eec9b93608f0ae98ba529590909aaa28811ee0f4401b19df98f20aeb6d027ccf4c228b0bcd7278de5193d202dfe0ae257dae98424c21820c490413a0bf458929cd507f0f9012a8665ad7147a29c20af0e6ad46155933adaed13b93ca6915121281cf6f84a46827daba409ad6b579863c0f7de82e7b7cb1fed854e49bc0ccc464a664d394ee9968d1c479a674c37eccb7b1980dc3ecc71e9bfdb7a95f70e8672fd580ae1d361ebd3863ecc361636c724e92e4661b9d683794a816507717cd20d5059942bb73b8bb08e8140a2829067ebd24b9c6308b011458be6a794ea5260cae8b0d886ad650836649697d06ccf03a8da2e5224c9364b658ccb270d9a3fbb306d4b8d0c84d807445f4a8ce42a19a51b4aba834293b85b66443d1b6d5a624b3b946bf328e04a71dbec030246f21e586d6b404b8f7a2455ab64aa31d901f0b8a49b29a7598b8c194767ac230c076768f87db42a3258cb9a7c8652607fe0314222dcc954f8787d5d5033c022cd68a4a731a32979100f11dd35545c1fc7df9f6f41f7b4105b51b3b0000', '2026-11-29 18:08:00.930995+00');
INSERT INTO public.blocks VALUES ('9fcb1b9dad1770df29e5692152077457e1c9392919ec25d5b4b45c6178abdd11', 'notes 1671f1f99951', '\x785ea554db6ea330107593ddee766fdf60f9798430019cf4ad499b7ec4aa0f509c82969a2c38adaaaa3fb05fbd1aae09252652411913cfcc99993363ffbb20e495e5d973c12eb90fec3e4b778faa6097bf5fd95390ee247e32c51930e5a098a1705178287c1402c51cc50205b74b59faf0d289975ebc74e3a51ff7d91d468b300093c17dccde602fa4ef81bf00e180f040d8205c1002e636081fc402e6ce9e739a145a4687ee6c8db1ae50ac30de4d887219e2c6357eae515c95bb37286e2bbdb79fd510b00db6e501076e79e0806379308399e5810baee581079ee5810fbee581006179c61aed037d113cca433d376ae7b651cdf2e421d6fbe5bcb7d1f94e1a0dcc1970706006ee0863a759d950db01f227600e0be036700edc013e03ee0237b3c9d63886cb10e54a8cf591e174e25462dfc371f33ccb3403a6e3248f18b04db2d1310356c827a9743ce6be09d242428fee0f19b2fb38cb23aa3325cd3d56bb34351a70b02d1f6c6b3e12f104a0531acd12b591792ea30fa6cdb6dc8cc0ccea91d3b3a699a2a10c34e54037897a9039e59754c792e228d06c43d70268f17717e4126d511365cf0a7d2cbc5b5a00a705702a8072881a84ddb6dcabda19bed0a05223c4aa8598b510b30aa29cbf06a276398042ff1bba4903dd82b82d885b81d4c37b4226cb43a48e92baa286926588e9681a678f920645a90b839c86f2215105225d0fd052f3dad252a218b2e97ad3f15227d2f25265728498abd389598682062aa2010dd39da42ad312b7d1ea8f7c31a6d9b5efe808ad04d06d1a282da3668690ae3451b26ae07bb2fa338410c7eabc1d20aa3f40e86f28a2d7791355a64c7aa3d89553a7d31bc5803ec7592a69a1e5b63c55a55143cbd0b9e8f71f515ac7a1c2baf3d9d5d41fc4fdc37508668dddf823b7cfe0f576f746c819999029f9443e9373f2854cc8577241be91733225137246c6f5d57356bf93fa9dd66fe37f7c1df6ef9ebe7db31ee6f77eedf4e6dffed3ff5fed75718eadd3fa6b3f7ec34ef5bfe1af62ef3b21e407f9497e91ff47f3f218');
INSERT INTO public.blocks VALUES ('9fcb1b9dad1770df29e5692152077457e1c9392919ec25d5b4b45c6178abdd11', 'phrases 094091b24106', '\x785ee3666260a8562aca2f2f56b232d4514acecf29cdcd2b56b28aae562a4bcc294d0531950a0c956241722920ae526a62728652ad0eb2823cc20accf0ab3034c32f4d335913bcb21678650d28903533c52b6d6184575a29b12839037f88e695e6e4e05580192eb1b5008570a871');
INSERT INTO public.blocks VALUES ('9fcb1b9dad1770df29e5692152077457e1c9392919ec25d5b4b45c6178abdd11', 'motifs 9c86b190965a', '\x785e5bc3c8c050ad54945f5eac6465a0a3949c9f539a9b57ac64155dad549698539a0a62c682c453404ca5d4c4e40ca55a9d51c981918cad0500b6428cd8');
INSERT INTO public.blocks VALUES ('9fcb1b9dad1770df29e5692152077457e1c9392919ec25d5b4b45c6178abdd11', 'placements 47565b654328', '\x785e5bc3c8c050ad54945f5eac6465a0a3949c9f539a9b57ac64155dad549698539a0a62c682c453404ca5d4c4e40ca55a9d51c981918cad0500b6428cd8');
INSERT INTO public.blocks VALUES ('9fcb1b9dad1770df29e5692152077457e1c9392919ec25d5b4b45c6178abdd11', 'choruses 31137ec91152', '\x785e5bc3ccc050ad54945f5eac6465a8a3949c9f539a9b57ac64155dad549698539a0a621ac6822452406ca5d4c4e40ca55a1d645933bcd266a678a52d8cf04a9be095c5af37af342707af02039ac9e20f31033d23fc81420f05a3b2749125901248948dad0500969a2e8e');
INSERT INTO public.charts VALUES ('f97bfea1-3de9-48ce-b404-ad834d2c7c3a', 'Four bars', 'key: F
meter: 4/4
idiom: blues
| F7 | Bb7 | C7 | F7 |
', '2026-11-29 18:07:57.888112+00', NULL);
INSERT INTO public.corpora VALUES ('8e9aff2b-b3f6-4e4a-a1f1-197fbcf266aa', 'Old corpus', '', '2026-11-29 18:08:01.387223+00', NULL);
INSERT INTO public.items VALUES ('414db962-19d4-4539-98a7-d77b956524b6', 'e8bae0de-e881-429b-a420-3d27c060fcab', '8e9aff2b-b3f6-4e4a-a1f1-197fbcf266aa', 0, 'bad.mid', 'ac5a4718470a5be50178d026e882f1071b3f547a343618f56d5c7cbf6279e464', 'bad', NULL, NULL, 'key: F
idiom: blues
| F7 | Bb7 | C7 | F7 |', '{}', '{}', 'failed', 1, '{"code": "unknown-file", "todo": "Choose a MIDI file (.mid) or a MusicXML file (.musicxml, .xml, .mxl).", "where": "byte 0", "message": "bad.mid is neither a MIDI nor a MusicXML file"}', '2026-11-29 18:08:01.665031+00', 0);
INSERT INTO public.jobs VALUES ('e8bae0de-e881-429b-a420-3d27c060fcab', '8e9aff2b-b3f6-4e4a-a1f1-197fbcf266aa', false, 1, '2026-11-29 18:08:01.483576+00', '2026-11-29 18:08:01.665031+00');
INSERT INTO public.lessons VALUES ('b5b1c114-c8e3-40b2-bb8f-0d97f8862107', 'aaa32296-b809-467b-b920-bd79c1aabfb0', '12-bar blues in F', '2026-02-05', '{"feel": "swing", "lens": null, "chart": "name: 12-bar blues\nkey: F\nmeter: 4/4\nidiom: blues\n| F7 | F7 | F7 | F7 |\n| Bb7 | Bb7 | F7 | F7 |\n| C7 | Bb7 | F7 | F7 |\n", "level": "intermediate", "shapes": [{"name": "third-and-steps", "fingers": [1, 2, 3, 4], "semitones": [0, 3, 5, 6], "anchorFinger": 2, "anchorDegrees": [{"degree": "1", "qualities": ["dominant", "minor", "minor-seventh", "minor-sixth", "minor-major"]}, {"degree": "5", "qualities": ["dominant", "minor", "minor-seventh", "minor-sixth", "minor-major"]}]}]}', '2026-11-29 18:08:01.333408+00');
INSERT INTO public.lines VALUES ('9fcb1b9dad1770df29e5692152077457e1c9392919ec25d5b4b45c6178abdd11', '\x100000000100000002000000030000000400000005000000060000000700000008000000090000000a0000000b0000000c0000000d0000000e0000000f00000010000000000000000000003f0000803f0000c03f0000004000002040000040400000604000008040000090400000a0400000b0400000c0400000d0400000e0400000f0400000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f000000000000803f0000004000004040000080400000a0400000c0400000e04000000041000010410000204100003041000040410000504100006041000070410000803f0000004000004040000080400000803f0000004000004040000080400000803f0000004000004040000080400000803f000000400000404000008040010001000100010002000200020002000300030003000300040004000400040001000100010001000100010001000100010001000100010001000100010001004145484b464a4d50484c4f524d4b48450005090e0005090e0005090e000e090501020304020102040102030401030201', '\x4145484b464a4d50484c4f524d4b484501060a0f01060a0f01060a0f010f0a06010203040201020401020304010302010d0d0d0d0d0d0d0d0d0d0d0d0d0d0d00');
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
INSERT INTO public.migrations VALUES (12);
INSERT INTO public.migrations VALUES (13);
INSERT INTO public.player_notes VALUES ('c400bdbb-55db-4380-809f-65d7a57936a0', 'aaa32296-b809-467b-b920-bd79c1aabfb0', '2026-02-04', 'Well begun', '2026-11-29 18:07:57.770019+00');
INSERT INTO public.players VALUES ('aaa32296-b809-467b-b920-bd79c1aabfb0', 'Ilvi Oldenkamp', 'left-handed', '2026-11-29 18:07:57.602639+00', NULL, '{}', NULL);
INSERT INTO public.sources VALUES ('0b68cc4a94280c8dda6422f6e1141d4fdbdc0567df08038e7fd8935d61364856', '\x4d546864000000060000000100604d54726b0000008b00ff510307a12000904150608041000090455060804500009048506080480000904b5060804b00009046506080460000904a5060804a0000904d5060804d000090505060805000009048506080480000904c5060804c0000904f5060804f00009052506080520000904d5060804d0000904b5060804b000090485060804800009045506080450000ff2f00', '2026-11-29 18:08:00.95969+00');
INSERT INTO public.sources VALUES ('ac5a4718470a5be50178d026e882f1071b3f547a343618f56d5c7cbf6279e464', '\x6e6f204d49444920617420616c6c', '2026-11-29 18:08:01.483576+00');
INSERT INTO public.takes VALUES ('3ae4f7b9-5769-4e29-81b6-91958856c50b', '0b68cc4a94280c8dda6422f6e1141d4fdbdc0567df08038e7fd8935d61364856', 'old.mid', 'aaa32296-b809-467b-b920-bd79c1aabfb0', 'An old take', '2026-02-03', 'key: F
meter: 4/4
idiom: blues
| F7 | Bb7 | C7 | F7 |
', '{"name": "old.mid"}', '{old,kept}', false, '{"own": "I rushed", "added": [], "asked": false, "edited": {}, "hidden": [], "signed": "", "askFirst": false}', '9fcb1b9dad1770df29e5692152077457e1c9392919ec25d5b4b45c6178abdd11', '2026-11-29 18:08:00.95969+00', NULL, NULL, NULL, NULL);
INSERT INTO public.tallies VALUES ('9fcb1b9dad1770df29e5692152077457e1c9392919ec25d5b4b45c6178abdd11', 'dominant', 'root', 'chord tone', 4);
INSERT INTO public.tallies VALUES ('9fcb1b9dad1770df29e5692152077457e1c9392919ec25d5b4b45c6178abdd11', 'dominant', 'third', 'chord tone', 4);
INSERT INTO public.tallies VALUES ('9fcb1b9dad1770df29e5692152077457e1c9392919ec25d5b4b45c6178abdd11', 'dominant', 'fifth', 'chord tone', 4);
INSERT INTO public.tallies VALUES ('9fcb1b9dad1770df29e5692152077457e1c9392919ec25d5b4b45c6178abdd11', 'dominant', 'seventh', 'chord tone', 4);
INSERT INTO public.tokens VALUES ('e93fec2a-5415-4fe3-971e-f4d039dd904c', 'For Ilvi', 'reader', '{3ae4f7b9-5769-4e29-81b6-91958856c50b}', '410a5f8fbc4568d675e368a35ea371e6c8da766df6a5cf272d8f4e2128443c50', '2026-11-29 18:08:01.13988+00', NULL, NULL);
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
ALTER TABLE ONLY public.lessons
    ADD CONSTRAINT lessons_pkey PRIMARY KEY (id);
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
ALTER TABLE ONLY public.workers
    ADD CONSTRAINT workers_pkey PRIMARY KEY (id);
CREATE INDEX ideas_found_key ON public.ideas_found USING btree (key);
CREATE INDEX items_corpus ON public.items USING btree (corpus_id, state);
CREATE INDEX items_job ON public.items USING btree (job_id, state);
CREATE INDEX items_source ON public.items USING btree (source);
CREATE INDEX lessons_player ON public.lessons USING btree (player_id);
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
ALTER TABLE ONLY public.lessons
    ADD CONSTRAINT lessons_player_id_fkey FOREIGN KEY (player_id) REFERENCES public.players(id) ON DELETE CASCADE;
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
