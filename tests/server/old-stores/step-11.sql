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
    corpus_id text,
    sent_key text,
    sent_hash text
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
INSERT INTO public.analyses VALUES ('9af3940983aa5c35c65651b35f5166d83a19a3e3a0067cf4a5f8ff0c86633d40', '4', '{"key": "F", "low": 65, "high": 82, "idiom": "blues", "notes": 16, "rests": 0, "swing": null, "tempo": 120, "method": "click", "motifs": 0, "phrases": 1, "seconds": 8, "choruses": 1, "runShare": 0, "warnings": 0, "chartName": null, "perSecond": 2, "soloNotes": 16, "confidence": 0.5164829862266778, "placementShare": 0}', '\x1f8b0800000000000003ed5bcd6fe33616ff57089e760125916459927d9ba49d6eb1e8a2e814bdcccc8196288b1b8974492aae91e67f5f3c9292288fed7166578b1c9a436051e4e3c7ef7debf119aba2a62df98d4ac504c7eb28c08493e6a0981ada708203ac44270b8ad7cf989396e235164d79dbb21207b812b2251aaf71cb4a065d6b122f53bcc6e126cd8b2221ab24cec3222f4b9226715ca5348a92a84caa725316e132cdca2accc3454eb3aacc578b6599468b34c997290e30179a2abc8ed2002b5a085e2abcce03ac996e285ef3ae6902bc23522bbcfef88c5989d7584730ce2ef257498a47040d4a93274329c03b29b692b4fdf0618a97cf2f012e6a22f5b84ddbe5911ef01abfc7016ea9a6125e6f2881499300779c69bc4e5e02cc4a265abcc69ba6a30a077843a45d17efda0d0c8b80be90b0898fcf581dda8d688070069d299c61647f58ca55c70b6d2130246f04a7b0b7aea592c0c01f61a02a089c05fe89fd219a43c908c7b09371d6f8f4acf79b6ba7ad4427a7f3fe76d5c48bd3133f5c3d2f7b9aeef7ba6993d3d3ce71ca9f47c1c05bf644390eb0a67f80303cd2c31abdffc40dc7ac5172977ce28641d6c84cf389ff89de67e84f74bf81ff0ff00f9e3f71fc1260b18325a993f2a644237e365c6ab9139e3f6852557ec33f082f4701d19a4ade3fb654d7022485745a60c7f20f82574cb6b4c4eb8a348ac23eda9de8c7100e470a27fad989836d772cefe68533727d544d76f0dbbe117bfec135c0cb424849cda1f7bd294c1c05782b4863da5e024c1ab6e52de5461c8745170d2b1e61d5b0e0927238fbf07619a5491eaff2348ed334cb72cb029dea459e158fddeede621e0e7b03b206ca75148701568dd85305fc014f1551ba7f7a09704b76969f7a351406782714b3ac1302030eaf56feab2807361974815d97e541627582d206cd30c0144003793db5b9d52a4e97d16a91c35cc764e2814cecc880189c2293e7f92259e4d1292a8b814ae2a8a4df402519a8a48e0ae0718a4a9aadb2385b2e1338a2098fed89e48c6fdd13698081896646871b1602a67d0f9a1738ec6550e3bd15e0a0f4774c17355ea7cb00ab1d6d1ac6b7a008c09e09aea83df3b293c48178bb1c144314e027da8882e9035ee761806b235058b26dad9d10e2b5961ded596d02e9a0678c26eab54f49b7928230c3e2a4300a450a01f4b61d2be9afa07a7af9032df123ff27c89a6b6918a7bfd851862cd256556922b7b01927855a52bed5b565fc8614d4ca907d5b31be75a6c8fefcd0eb2fc62b2a25351aa661e5685e6b491474d8c1aa5ba159e530d0ac35271a06981485e86016fc1e098e60fb280a909d02456ba46b8a60ab4854e87d1620f57b472485bef0a6147b0e636e01b451a83cedaaa3bbf02e5d620bc44f446e19c816b09fc53bf6f05e4df07ee7e30d10cf88786f6bbf407c3122ae6b26e1943dc82dd5ff1ef1f036bd80793c17e6ef06cce301f3d8626e36db83deed4c9bddcae680887d3d451d14a287fa2abd4b57e761877375b067a00347d81f80591cecd1aca0f77ece17a0c30a1ce815ab743d939c87b7f905d41773a1fe30a0be18505f58d4cd6e7bd41dca13f4a79003701ee4d12abecb409ecf600ef2dc633e55eddf6f7cd06796f5decffc0276e3583bdc157da2fc18f9ff8fb8836f3b0bf0dfa3aa217a403f19d04f2cfa6ecfaf927af03c3c1688f3fc2ebba0ede155cf0260264616b8df78ea3e9e8301e213e6dd06536fc8becfa6ebefa7e08f46de29fcdec8df6f40f435aa454b1151e6dd8648b4a15bc6d5147c70183df01779729785e7c187c4400f3e0c1dc1ffce13ff781ef11fd0f74cfd11fa6fc1d6cfe6df7d77c2d63bff6eb0f506fbabc41ed4b7877c92877719c8ef19e4e1987be4b3a953ef21bf981577cfda1fe1fe26ccfd6c823f3af6a3b977323f987b2bf45fb5f790cdf3505f66e95d06277906f57c441d40f35d7bdfde2f661678cfde1f01ff7a836f1b5e8ffc25919fcddebfbbdede43328bf0121193e44210944333f47aa4872b950248b6c71e6916dfe517cc0144075f0f019239786371c21530e9cd37e409cc660946ffff6ca4ff900568d710ae69d987fae003c0f6a690e753c8b334bf180144c00e3de6a04dbc10c0c77c1e8d30a0eeb90053d4df8207309b21f8fe8407701ced03f05fb70390a7f150cfd3e42e03e7ee1cea5e4e2f9be6787ef0509f1773cffc4f317f13d67fb660ff8713d6ff38d807d0af52f0d151666f958677d985244fe425f7f2a98abff73d80e5ccf2ee790053ec5fef007c33fa97447e360fe028e8bbe4015c27f9d151962f0a97e95d7e49e3fb89bef3ae7f3a07fec9092bff573efff5f9fce838cf172de38b8e7f7465a62f9d47ee07dccf66f5df88dccfa6f58f327da3bd77aaff28d347d0be160d454ad39de101d3e94b6f2f3acaf645717239dd17f9f9bef33e7e362b17bced34ff6ceedea934ff71dc0fe00f787fc5f61f25fba245925cf6f5bd74df852f7bd9cc3ae06cb6ff2df8fab369fff1cbde68f38fb37dfe379e29131c217f94ec8b92243cf56defb3b751b736e8603ef63f436189841282006f0ea6a604af9f5fe0e1c12137adb1e8bb9b1a0cd3a71cba0c588e343b0585283065c7dd6f33254c63e1bd21bcbc010507155eb664e13bdf0db04d40792c5fb3d521d7520175325079b848c550b8e9d9eedb577391ce55eb815aad1bc7202df9b78082b16f594fcbb8906847b9265a70567c2b1958c2379231c5643d7fd84cdf2c0c72bf39b3f8af92992072ee08ae40f635cbb948e8aa05bd9645ce2ee8953c729eceeb98644a67c225261a9c8549cec9db57a94c20f9e122958bd0be623517e95cb59ed7b2c8b9f5bc9243ce92791d834cc8d8e2d09a5560c39eb133a8506fc69426b60c0e6a316dfda135ce0dd1d4f24d21da166ca629843406dc50d1e4919ad600b74c0d5cb6134ab10d38132194645262cc26142d8aa7be4f21a09631cd6eb364110e7ff1a9daba4a52fa6edafa8c2b2695fe978005daef700d993e5bd8a0f362982ebc8d5693bf051cef84147cdcf149c1f36952d9d21ca996541775bf2a692aae4d199016f00b5c426f7c9098f2d296817fa5f0da2ec08d3209453bcca4982e8e0307821e04788ee63c49a78d5b63a19374cb94b683879add0d5120998dd8e3751c05b866db1aaf936cca6d7d67da883d6a59593614012b996149de0f5bae4e0e83bd7c312a0527d78ccaa26154e28d221c89024ae211d98827fa050108b22c817c311088628f82de0b47429da191273d8dd5f2e4d2b5d8f57d5769df370af3a996752eab3d58131218d775c244d0e033918919fa554309ebb91a1edb600bc1fd0b06922afdc1abf485e7b17cd89ef172382288489dca20b280f88f70b537cc60b963233a5e127930135243d414c60253c9aeaf82f6bdf1923eb1a21748bb7c7704de5ebc1d4204625484c93fadc3db7819b878c43dd8d0d43df4c90af3f832862356578d010904622ed431afa29ec0a2ffb1ec7f6cb2815a2f0c30e2c459fdde11ae992d154f574106855a197cabc9b2205bdd2ec1e1674abb5b1a1f9ffd3ade7ecbc0465e50e89a0d837a7541277a0367bb66a30bbc429253bdc72927b4d3d3bd47c99ef41e17e8f78648f454f3b8c0c8f07f49b932a1eb33de5179efa2d21d959641cd5c58ed4df0e682bca3f06978fe30b8283eafc90eaaf3dd0be074cbe583dc9990ec2f4cff9798cafaa0ebd6c4b33e70e6e1fe009ac642d307e5cf986c09e36008f1569a6b20bdeb1006f87710cb00ff0e42394e9482029054d5a281cb15a61eaaa60434824b429492552e97f0e22e457cd064c31ac36e7649d7715fb729d91383fb62464d4032d81a43d01feac00bb1eb13333e8b31aea97c32573e9e31b88fa042c274fa97798a2c5b4cffe0f65927757d3368b7e8a8c722c07b93ff3841188030dad7b87c4e00464fada164a7de5586e9e10a4823f8962afd8bb915e20eed8bab2cd38b0b15e3a57b72c60b5cb81ba66e542d24249f6a4aa00798359037c6b7a680c2da93003f3293aae242b3029ef7d424ad40fbbb8b46bfd64c21a6104186248209d0dfa2d4145fa8bf074809d430ad1b0abd146125d8eb4ea39a6c9856b7e89d49d6740a0989c0aab74252b4175d53224d9bc63c4326873ef5f7373e5a8b6b6aee8deb65bc2e5394698af38c3f683c39539c613fd75b6fcb3a5af6738ecdefdbe42e98ec8bd764409a8e1b8d401e371a0d70dc682e98ec2429cc313ad66e29511da0eeae8e41320b7281f6e4707fb5cf091450520c2c77450a8d611603282cf9a6e305959a30b8003622aa594b0d9a15a5cd0530c3db245f2ca32c8c1659b658c4719c0cf0fea801362e347233205d133d29a550a86114ed6b2a4d564ea11dd952b4ebb4a9ba6c6fd1cf8c23c1690f30ac18f2b39055431b5a01de07d1212d3ba5d11ec84f39c5e451cd468c6b60aa373d6e1871bb78c8e30da0c916a6aba7c8251fc7f50728445a985b9c0e102bac478004586c149526e031178c00f23dd3754d41ff7dfcfcf21f39739c3cee3a0000', '2026-11-29 02:20:58.199577+00');
INSERT INTO public.blocks VALUES ('9af3940983aa5c35c65651b35f5166d83a19a3e3a0067cf4a5f8ff0c86633d40', 'notes 1671f1f99951', '\x785ea554db6ea330107593ddee766fdf60f9798430019cf4ad499b7ec4aa0f509c82969a2c38adaaaa3fb05fbd1aae09252652411913cfcc99993363ffbb20e495e5d973c12eb90fec3e4b778faa6097bf5fd95390ee247e32c51930e5a098a1705178287c1402c51cc50205b74b59faf0d289975ebc74e3a51ff7d91d468b300093c17dccde602fa4ef81bf00e180f040d8205c1002e636081fc402e6ce9e739a145a4687ee6c8db1ae50ac30de4d887219e2c6357eae515c95bb37286e2bbdb79fd510b00db6e501076e79e0806379308399e5810baee581079ee5810fbee581006179c61aed037d113cca433d376ae7b651cdf2e421d6fbe5bcb7d1f94e1a0dcc1970706006ee0863a759d950db01f227600e0be036700edc013e03ee0237b3c9d63886cb10e54a8cf591e174e25462dfc371f33ccb3403a6e3248f18b04db2d1310356c827a9743ce6be09d242428fee0f19b2fb38cb23aa3325cd3d56bb34351a70b02d1f6c6b3e12f104a0531acd12b591792ea30fa6cdb6dc8cc0ccea91d3b3a699a2a10c34e54037897a9039e59754c792e228d06c43d70268f17717e4126d511365cf0a7d2cbc5b5a00a705702a8072881a84ddb6dcabda19bed0a05223c4aa8598b510b30aa29cbf06a276398042ff1bba4903dd82b82d885b81d4c37b4226cb43a48e92baa286926588e9681a678f920645a90b839c86f2215105225d0fd052f3dad252a218b2e97ad3f15227d2f25265728498abd389598682062aa2010dd39da42ad312b7d1ea8f7c31a6d9b5efe808ad04d06d1a282da3668690ae3451b26ae07bb2fa338410c7eabc1d20aa3f40e86f28a2d7791355a64c7aa3d89553a7d31bc5803ec7592a69a1e5b63c55a55143cbd0b9e8f71f515ac7a1c2baf3d9d5d41fc4fdc37508668dddf823b7cfe0f576f746c819999029f9443e9373f2854cc8577241be91733225137246c6f5d57356bf93fa9dd66fe37f7c1df6ef9ebe7db31ee6f77eedf4e6dffed3ff5fed75718eadd3fa6b3f7ec34ef5bfe1af62ef3b21e407f9497e91ff47f3f218');
INSERT INTO public.blocks VALUES ('9af3940983aa5c35c65651b35f5166d83a19a3e3a0067cf4a5f8ff0c86633d40', 'phrases 094091b24106', '\x785ee3666260a8562aca2f2f56b232d4514acecf29cdcd2b56b28aae562a4bcc294d0531950a0c956241722920ae526a62728652ad0eb2823cc20accf0ab3034c32f4d335913bcb21678650d28903533c52b6d6184575a29b12839037f88e695e6e4e05580192eb1b5008570a871');
INSERT INTO public.blocks VALUES ('9af3940983aa5c35c65651b35f5166d83a19a3e3a0067cf4a5f8ff0c86633d40', 'motifs 9c86b190965a', '\x785e5bc3c8c050ad54945f5eac6465a0a3949c9f539a9b57ac64155dad549698539a0a62c682c453404ca5d4c4e40ca55a9d51c981918cad0500b6428cd8');
INSERT INTO public.blocks VALUES ('9af3940983aa5c35c65651b35f5166d83a19a3e3a0067cf4a5f8ff0c86633d40', 'placements 47565b654328', '\x785e5bc3c8c050ad54945f5eac6465a0a3949c9f539a9b57ac64155dad549698539a0a62c682c453404ca5d4c4e40ca55a9d51c981918cad0500b6428cd8');
INSERT INTO public.blocks VALUES ('9af3940983aa5c35c65651b35f5166d83a19a3e3a0067cf4a5f8ff0c86633d40', 'choruses 31137ec91152', '\x785e5bc3ccc050ad54945f5eac6465a8a3949c9f539a9b57ac64155dad549698539a0a621ac6822452406ca5d4c4e40ca55a1d645933bcd266a678a52d8cf04a9be095c5af37af342707af02039ac9e20f31033d23fc81420f05a3b2749125901248948dad0500969a2e8e');
INSERT INTO public.charts VALUES ('3e7b61ac-032f-48e0-9212-2c4495f917c3', 'Four bars', 'key: F
meter: 4/4
idiom: blues
| F7 | Bb7 | C7 | F7 |
', '2026-11-29 02:20:56.416934+00', NULL);
INSERT INTO public.corpora VALUES ('0ef1a12d-5354-43db-bfa9-a0272304e5b8', 'Old corpus', '', '2026-11-29 02:20:58.461028+00', NULL);
INSERT INTO public.items VALUES ('5b3d3ad2-e0af-48d9-a199-4d028b9af4ba', '08914277-e66d-4d98-8ce8-7f46543a7bf8', '0ef1a12d-5354-43db-bfa9-a0272304e5b8', 0, 'bad.mid', 'ac5a4718470a5be50178d026e882f1071b3f547a343618f56d5c7cbf6279e464', 'bad', NULL, NULL, 'key: F
idiom: blues
| F7 | Bb7 | C7 | F7 |', '{}', '{}', 'failed', 1, '{"code": "unknown-file", "todo": "Choose a MIDI file (.mid) or a MusicXML file (.musicxml, .xml, .mxl).", "where": "byte 0", "message": "bad.mid is neither a MIDI nor a MusicXML file"}', '2026-11-29 02:20:58.677549+00', 0);
INSERT INTO public.jobs VALUES ('08914277-e66d-4d98-8ce8-7f46543a7bf8', '0ef1a12d-5354-43db-bfa9-a0272304e5b8', false, 1, '2026-11-29 02:20:58.507545+00', '2026-11-29 02:20:58.677549+00');
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
INSERT INTO public.player_notes VALUES ('423f9369-649b-422b-b247-03c472a5bfb1', '66684211-b4db-49e7-8e84-94569f6ed08d', '2026-02-04', 'Well begun', '2026-11-29 02:20:58.432499+00');
INSERT INTO public.players VALUES ('66684211-b4db-49e7-8e84-94569f6ed08d', 'Ilvi Oldenkamp', 'left-handed', '2026-11-29 02:20:56.230475+00', NULL, '{}', NULL);
INSERT INTO public.sources VALUES ('0b68cc4a94280c8dda6422f6e1141d4fdbdc0567df08038e7fd8935d61364856', '\x4d546864000000060000000100604d54726b0000008b00ff510307a12000904150608041000090455060804500009048506080480000904b5060804b00009046506080460000904a5060804a0000904d5060804d000090505060805000009048506080480000904c5060804c0000904f5060804f00009052506080520000904d5060804d0000904b5060804b000090485060804800009045506080450000ff2f00', '2026-11-29 02:20:58.224179+00');
INSERT INTO public.sources VALUES ('ac5a4718470a5be50178d026e882f1071b3f547a343618f56d5c7cbf6279e464', '\x6e6f204d49444920617420616c6c', '2026-11-29 02:20:58.507545+00');
INSERT INTO public.takes VALUES ('a08fa274-b6ae-461a-889d-132b3cfe4bb2', '0b68cc4a94280c8dda6422f6e1141d4fdbdc0567df08038e7fd8935d61364856', 'old.mid', '66684211-b4db-49e7-8e84-94569f6ed08d', 'An old take', '2026-02-03', 'key: F
idiom: blues
| F7 | Bb7 | C7 | F7 |', '{"name": "old.mid"}', '{old,kept}', false, '{"own": "I rushed", "added": [], "asked": false, "edited": {}, "hidden": [], "signed": "", "askFirst": false}', '9af3940983aa5c35c65651b35f5166d83a19a3e3a0067cf4a5f8ff0c86633d40', '2026-11-29 02:20:58.224179+00', NULL, NULL, 'key-of-old', '3c3d0534e92a5247f04ee322b56dc1b6c67f0344a106f82a83078dba85f25b1e');
INSERT INTO public.tallies VALUES ('9af3940983aa5c35c65651b35f5166d83a19a3e3a0067cf4a5f8ff0c86633d40', 'dominant', 'root', 'chord tone', 4);
INSERT INTO public.tallies VALUES ('9af3940983aa5c35c65651b35f5166d83a19a3e3a0067cf4a5f8ff0c86633d40', 'dominant', 'third', 'chord tone', 4);
INSERT INTO public.tallies VALUES ('9af3940983aa5c35c65651b35f5166d83a19a3e3a0067cf4a5f8ff0c86633d40', 'dominant', 'fifth', 'chord tone', 4);
INSERT INTO public.tallies VALUES ('9af3940983aa5c35c65651b35f5166d83a19a3e3a0067cf4a5f8ff0c86633d40', 'dominant', 'seventh', 'chord tone', 4);
INSERT INTO public.tokens VALUES ('54643ac1-1fee-4a3f-9dae-4e5d36aeeca1', 'For Ilvi', 'reader', '{a08fa274-b6ae-461a-889d-132b3cfe4bb2}', '6f16442bff8f52f52d22b1e2331998ec4265d2d7f83af5dba6f8143ea5b17c53', '2026-11-29 02:20:58.398521+00', NULL, NULL);
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
