CREATE TABLE public.analyses (
    key text NOT NULL,
    version text NOT NULL,
    facts jsonb NOT NULL,
    account bytea NOT NULL,
    created_at timestamp with time zone DEFAULT now() NOT NULL
);
ALTER TABLE ONLY public.analyses ALTER COLUMN facts SET STATISTICS 0;
ALTER TABLE ONLY public.analyses ALTER COLUMN account SET STATISTICS 0;
CREATE TABLE public.audit (
    id text NOT NULL,
    at timestamp with time zone DEFAULT now() NOT NULL,
    token text,
    role text NOT NULL,
    action text NOT NULL,
    route text NOT NULL,
    about text,
    status integer NOT NULL,
    times integer NOT NULL,
    method text DEFAULT ''::text NOT NULL
);
ALTER TABLE ONLY public.audit ALTER COLUMN about SET STATISTICS 0;
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
    deleted_at timestamp with time zone,
    made_by text
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
    deleted_at timestamp with time zone,
    made_by text
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
    sent_source text,
    same_as text,
    CONSTRAINT items_state_check CHECK ((state = ANY (ARRAY['waiting'::text, 'done'::text, 'failed'::text, 'cancelled'::text, 'repeated'::text])))
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
    finished_at timestamp with time zone,
    made_by text
);
CREATE TABLE public.lenses (
    id text NOT NULL,
    name text NOT NULL,
    lens jsonb NOT NULL,
    created_at timestamp with time zone DEFAULT now() NOT NULL,
    deleted_at timestamp with time zone,
    made_by text
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
    deleted_at timestamp with time zone,
    made_by text
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
CREATE TABLE public.source_pieces (
    source text NOT NULL,
    place integer NOT NULL,
    bytes bytea NOT NULL
);
ALTER TABLE ONLY public.source_pieces ALTER COLUMN bytes SET STORAGE EXTERNAL;
CREATE TABLE public.sources (
    sha256 text NOT NULL,
    bytes bytea NOT NULL,
    created_at timestamp with time zone DEFAULT now() NOT NULL,
    size integer
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
    sent_hash text,
    made_by text
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
    expires_at timestamp with time zone,
    most_takes integer,
    most_mb double precision
);
ALTER TABLE ONLY public.tokens ALTER COLUMN name SET STATISTICS 0;
CREATE TABLE public.workers (
    id text NOT NULL,
    seen_at timestamp with time zone NOT NULL
);
INSERT INTO public.analyses VALUES ('d819ab21c29723b2f0bc1cc237fd6b819c8a77f2c9811a584065edfc48f3cbad', '6', '{"key": "F", "low": 65, "high": 82, "lens": null, "idiom": "blues", "meter": "4/4", "notes": 16, "rests": 0, "swing": null, "tempo": 120, "method": "click", "motifs": 0, "phrases": 1, "seconds": 8, "choruses": 1, "runShare": 0, "warnings": 0, "chartName": null, "perSecond": 2, "soloNotes": 16, "confidence": 0.6007728899677715, "warningCodes": [], "placementShare": 0}', '\x1f8b0800000000000003ed5b5f73a33812ff2a949eeeaa480c1803f6db24bbb3b775b5575b3b53fb32330f32c84617903c9288d795cd77bf6a498020b663e78eab3c6c1e5296909a967efd4f4deb09c9bc2435fe9d08493943abd04798e1ea20a9ecfa50827c2479237282564f88e19aa015e255715bd302f968c3458d155aa19a16148696385a246885827592e5798c977194057956143889a3689390308cc322de14eb220f16495a6c822c986724dd14d972be2892709ec4d9025ecbb82212adc2c44792e49c1512ad321f29aa2a8256aca92a1fedb05012adbe3c215aa0155221cc334c7e16387ff0a0432afca829f96827f856e0ba9ddebde2f9dbb38ff2120bd52fd30c792007b4421f918f6aa28880c76b82e1a5b18f1a46155ac5cf3ea205e5355aa175d510897cb4c6c2f0c59a7a0dd34297545e7201cbf9f284e4a15ef30afa539846603743f3c3bc63d3b05c193034f11bce08acb2a989c030f1679828730cbb827ea17ff0ea5050cc10aca97f7ff4dafbefd69732b0e18d1872f0fb452ccc5f63e1fe620ee8e3700f2e63207e8d812930f8d62b10dad247c2908f14f90394e6811c56dec7af4c4bd6ca8b67f157a60569e5e9d77c657f7a1f53ef4fef6e0dffefe11fb4bf32f4ec23be0396e451bd94bce2bf6a6936520ced4f0a6f366ec73f302b7a45528a08d6366ba24a0e1a851bc5f56661a1ee39db50519302ad36b89204d651ef783b0733d852d8d16f769f4dbf550dfb5ed8233b46967807bfcd13be679f6c073cccb910446f7a3b9ac08b431f6d39ae74dfb38f7045b7ac264cab6dc7745ed1fc01b806860bc260ef83db2408d234cab2e53249d3345c181168646b1a68fed0ecee0ce641b73620aba15c8551e02359f13d91201fd0da60a9dad6b38f6abc33f2d49aabc0473b2ea9119d0044b17bb4741f8519884967330c5f4606b1b11d526934031f11002d7a6d71f0ae3199a823135932f15bc8cc3b32b12593bc854cdc91492c99ec5532df4652b6c78251b6b52d5c81086345b5b5d74204820062a34443ac147f04930d22f7dcd9ffd67d30f0163baaf212ad92858fe48e5415655bb00c31f211679218108a46608beaeda2b314a18f1e49c573aa0e6895053e2ab5862141b7a5b25ad9f3f202e3cef068d3d49aa3826c0501ed06e604d71646700ef4b60d2dc867b045ad4282d9f899fd1394cff6549491dfcc2c4dd653c676292cb6b018ab964a10b655a5d1840ae7c4289579baa16c6b7d98f9f9a93568946d8810449b9c8a16bd5f2e05963060075cd75cd18d8544d15aef68e0239ce7bc81b7a08f1e671e2cdf0b7dcfbcc20b579e2a89074bf5f8c6fb98fa9efcde6041602c3c29f89ec19c5b00add732c7dcaa7016cc92053240fc82c59682b281341abc2307efe500ef0f2ede00f1848883321f457cde23ae4a2a60971dc80dd5ff1ef1e0363983793415e61f3acca30ef3c860ae17db82deec749f59cafae061f378883a584807f565324b96a761877db5b0a760147bd8ef41582cece1a4a0cf4f810e1c58d03774a3ca89f43cb8cdcea03e9f0af5fb0ef57987fadca0ae57dba26e511ea03f841c8073200f97d12c057d3e8139e8738bf9d0b4ffb876419f58d7c1e31e855d47df1677491e091b23ffff51f7c554c0ffe86d2aac3af4e30efd8541dfaef92aad8748c4118128cb66e9196b0f8f5a110037d18bc0ddda31f7d11402101d71efe6c4f58efcfb64b6fe6e087eefe4adc16f9dfcdd1a545f7925af8987a57eb6c6c25b932d6572083ec48f0ef8f32c9ea5c169f021a3d0820f537bf07f70d43f9a46fd3bf41d573f42ff3df8fac9e2bb1f8ef87a1bdf75be5e637f91da83f976908fb3609682fe9e401eb6b9453e1d06f50ef2f3497177bcfd08f777e1ee2753fc3eb0efddbdd5f9cedd1ba57fd5df431ad0417d9126b31476f204ea598f3a80e686f6aebf9f4facf08ebf1f017fbdc3371dd7237f4ee521b93509f21f4ef9fbf885bf87ec1666858775d6cb83433974c3a80772b8d02880663be291a4d12c3be30ee074f0fa11209e4236e64742019df97c4791c0649ea08fff4f9ef4ef53dfdb55982952b4477d8801607943c8b321e469929d3d0184200e2de6604d9c23808bf93416a143dd090186a8bf8708603247f0e39108607cda07e05ff70390a77150cf9278964270770a7527a7970e733c3f39a84f8bb9e3fe8798bf0bef3fd961ffa723de7f7cd807d02f32f0e128b3b74c82597a26c9133ac9bd6c68e2efdc086031b1be3b11c010fbeb038037a37f4ee5278b004687be7311c0659a1f8eb27c61b04866d9398bef26fa4e87fec914f8c747bcfc5ff9fcebf3f9e138cf172ea2b3817f7861a62f9946ef3bdc4f66f5df89de4f66f54799bededf5bd33fcaf4616f5ff28a7852919d96013de865b4178eb27d61149f4ff7856ebeef748c9f4e2a05ef3bcd3f59b8772ccd3f3ef703f81ddeaff8fe51b22f9cc7f1f958df49f79df9b2974e6c034e66fbdf43ac3f99f5efbfecf53e7f9ced73bff10c856084fc28d917c67170ecdbde3767a1963718a03ff63f41a589808a021fad0fbac804ad9e9ea1716f911b165db4c37551861e5374433a2c7b9a8d8412037865c3ec6ffd4a788d81f706b3e2060c1c9486990a861fdc30c07401e5beeecd948b5c4a05cc4947e5fe2c154de1a615bbb7737396ce45fc4019d78d15901aff9b4355d95bf8a929e3c2db11a6b0e28ce66f25032cbc918cae336be5c364fa261190bbf509e65f253340e4d4165c80ec35ec9c25741143d78ac84986ae9491d374ae1392219d8194e8d3e02442724adf5ea53280e4a7b354ce427b053767e95cc4cfb522728a9f2b25e42499eb046440c6548b9674033eec0959870af566542a6caae2a038d314241ae75c61458cdce4bcaec167eaca48edc03515851f88eef5514d6527653b2e255d433011408d26c1da6d4215237f6cc7d4d6bf461048e41c2a1d93ec368983fe0faac65fd4dd6d04211f86bd4f68438554ffe2c0ad29c1a9f0b06d3084c1b15e8d2eacbc0d83a5fb17c35e0f48811ab9a4a0dd939a77a482dbe5805492bc20051f8d5c52d03e462abc4d5c4acb287a414a1f435d5abae3f81223673f8320d2c5a010c5a9bc6cf74ee8ea7293cd54bccb6f39ccf94051929a425028d16aaea31772e010b66af1c08dd23195911b41b6542a33b9ab205e630966a1e27bb48a421f95745ba2559c0e45bd1d4c2abef76a5a1415f1408ef5b4386ba72d9647a7c15a5ecc4a20c2d6b3d2b09ba5b1b6b330f3780e85fc1e5ef347f282009cf00c816cde1108352e9682da734b429ea091c52d8de5e228eb8aefdab1cba41d1b06d9d0c4db78d96cac3e8fe8b879281e63e918dd7800eb70b480c87498b274f75a8420527d72ea8ea1dd17339b3d5e745b04c7616bafb0c8e1f08999dc6b6130d2b1e60d2bb038e817124d5417e9825089a6adc9768f020579a4796b000cfb760b9cb5382b84e38fb64f3af9b50a6ea3856f0f43b661cec5b6d1664a74f3b93f0b1943d99f86e01468cf59fa51d81298b73f16ed8f75da516b9501661cd9abef0d668a9ac2f564e9a7502596c287a234f5d3e5ed024e1b542a7bb7e4cb935b44dc2e19c4c83991da6e2da04e51d291d120d9b67bee76c7c747f7af1cd04e8e8fee357b30ba67d01d0dc7e063dd3d83a196ff8230a9cfcd4f6847c49d3d12ef883002aadf85e45e9f1ced09737476ebda9fbaf8c89535d1c05d01fb0024dd4879a777fa3cf817a6ff4b4c45795065ad0fd32e70ba7177004b63a06933024f086f3165e0e0d056e84b296ddc02f10653443cc2d5198b4d67fee11ec577505a1f7d0795edd948c03c08224b5ec145105daa55120cf6c2e6470a413736cdf16c2f707c52784d2b2d8c86e1cb64b35917f491c21d386d44204f6d5c255817796039dfb539235700db65e94910d982810992e15fea98b9743efc831b758d50e54d67fbc2d188b98ff63a35738430c0a46db38e46ad7af4416445f04e7ed86895806dae38db12a97ed33758eca6bdb87633bc62b1a1acb02debda20babca1f246965c405eac24184680d3036da46cab6b3b8cb7f1d103d55934c615cda1bd273a9f06bec15e8afa5c52e951e9614f93f4e005dedfc244d785c8bffb9ee45e4595aa088c929816e0cd1be595784d95bcf53ee83c52233d2e3cf0f93517c4dbf3a62a3c45aa4ab721c9441edb9b265f8c3fd6d7017424aaab8575bda8ae1bd421a50e0675dd88a92430b19809c3cc972613e299bc3338f4b3577a40d7c69d5a5dc79dda3e8c3b639df01238d7db6845bb26583680babdf006793648539a9d43ed7545ab50404952f0eb1b9c2bedd8f754952501edfaf2edf93f5480fb2d203a0000', '2026-11-29 18:09:36.244065+00');
INSERT INTO public.audit VALUES ('31dc9ce3-08dc-487b-8ce1-02f285bbc277', '2026-11-29 18:09:34.677768+00', NULL, 'owner', 'write', '/players', NULL, 201, 1, 'post');
INSERT INTO public.audit VALUES ('20e4ca1b-5e4e-4a13-90c8-db704cde2470', '2026-11-29 18:09:34.677768+00', NULL, 'owner', 'write', '/players/:id/notes', '92ab0d2b-7fad-4977-ad71-0f6ce14d5e93', 200, 1, 'post');
INSERT INTO public.audit VALUES ('146cc926-550c-43b0-b5fc-0c7bfe3bebdf', '2026-11-29 18:09:36.701494+00', NULL, 'owner', 'write', '/takes', NULL, 201, 1, 'post');
INSERT INTO public.audit VALUES ('d2be6df1-a526-4d3b-94f5-10cb46f7f28b', '2026-11-29 18:09:36.701494+00', NULL, 'owner', 'read', '/takes/:id/feedback', '3174533c-e174-48ae-b947-99dacc34a536', 200, 1, 'get');
INSERT INTO public.audit VALUES ('4c798df0-160f-40cd-8e45-f673b74fd90a', '2026-11-29 18:09:36.701494+00', NULL, 'owner', 'write', '/takes/:id/feedback', '3174533c-e174-48ae-b947-99dacc34a536', 200, 1, 'put');
INSERT INTO public.audit VALUES ('70d033b7-a26e-4e2b-88c0-3ae6b61a680f', '2026-11-29 18:09:36.701494+00', NULL, 'owner', 'write', '/takes/:id/own-view', '3174533c-e174-48ae-b947-99dacc34a536', 200, 1, 'put');
INSERT INTO public.audit VALUES ('5032acab-4e6e-44f7-a8b4-8e412ca9f67f', '2026-11-29 18:09:36.701494+00', NULL, 'owner', 'write', '/takes/:id/shares', '3174533c-e174-48ae-b947-99dacc34a536', 201, 1, 'post');
INSERT INTO public.audit VALUES ('52fff251-c877-40d1-bfb0-930d65b3e102', '2026-11-29 18:09:36.701494+00', NULL, 'owner', 'write', '/lessons', NULL, 201, 1, 'post');
INSERT INTO public.audit VALUES ('571c9326-393e-4160-a229-4fb5706a9ead', '2026-11-29 18:09:36.701494+00', NULL, 'owner', 'write', '/corpora', NULL, 201, 1, 'post');
INSERT INTO public.audit VALUES ('16df376f-5c0a-4934-bf9a-95845e191b2c', '2026-11-29 18:09:37.70393+00', NULL, 'owner', 'write', '/corpora/:id/takes', 'ad0161dd-01b0-4d78-9078-be7cc2f1b988', 202, 1, 'post');
INSERT INTO public.audit VALUES ('49432a53-f0ae-409f-ad69-54f30d8cb1b0', '2026-11-29 18:09:37.70393+00', NULL, 'owner', 'read', '/jobs/:id', 'e2971e8d-8b46-4759-92bc-aea61c6ff630', 200, 2, 'get');
INSERT INTO public.blocks VALUES ('d819ab21c29723b2f0bc1cc237fd6b819c8a77f2c9811a584065edfc48f3cbad', 'notes d72c51725930', '\x785ea554db6ea330107593eea57bfb06cbcf238409c649df9ab4e947acfa00c529682964c1695555fd83fde8d5704d0831950aca987866cecc9c19fbdf0521af2ccf9e0b76c93d60f759b27b4c0b76f9fb953df9c94ee1274b3903963a2866285c1402858742a298a358a0e076294b1f5e3af1d28b976ebcf4e31ebbc368210660cabf8fd81bec85f404780b900e4801d206e9829430b7417a20173077f69c93b8d02a3c74676b8c75856285f16e0294cb0037aef1738de2aadcbd41715be9c57e5643c036d896000edc12e080630998c1cc12e0826b0910202c011e78960009d212c61aed037de13faa433d376ae7b651cdf2f821d2fbe51cdbe87ca78c06e60c383830037784b1f759d950db01f227610e0be036700edc013e03ee0237b3c9d63886cb00e54a8ef591e174e25462df8371f33ccb3403a6a3380f19b04dbcd1110356a82795ea68cc7de32785821edd1f3264f75196875467a932f738dd2589d180836d79605bf39188ef00c2068ad156b338dda83c57e10713675b6e466066f5c8f959d32ca581f235e5403771faa072ca2fa98e14c561a0d986ae25d0e2efcecf15daa226cc9e53f4b1f07669019c16c0a900ca316a1076db72af6a68f042fd4a8d10ab1662d642cc2a8872021b88dae5000afd6fe826f1750be2b620a202a9c7f71d992c0f913a4aea8a1a4a9601a6a369943d2aea17a52ef0731aa887382d10e97a80969ad7969612c5904dd79b8e973a9196972a9313c45c9d22c63d22661948eaa721f56990ec144d33ad701badfea817639a5dfb4e8ed04a02dd267eaa55d8cc10d295c4a9aa1a784c567f8610e2549db70344f50708fd0d45f43a6fa2ca94496f14bb72ea747aa3e8d3e7284b142db4da96a7aa346a68193a17fdfe234aeb385458773ebb9afa83b87fb80ec1acb13b7fe4f619bcdeeede083923133225e7e413f94cbe9009f94a2ec837f2994cc9849c91717df59cd5efa47ea7f5dbf89f5e87fdbba76fdfac87f91daf9ddefcdb7ffaffabbd2ecea9755a7f9dd7ff716dd8a9f40d7f157bdf09213fc84ff28bfc077b6af27e');
INSERT INTO public.blocks VALUES ('d819ab21c29723b2f0bc1cc237fd6b819c8a77f2c9811a584065edfc48f3cbad', 'phrases 094091b24106', '\x785ee3666260a8562aca2f2f56b232d4514acecf29cdcd2b56b28aae562a4bcc294d0531950a0c956241722920ae526a62728652ad0eb2823cc20accf0ab3034c32f4d335913bcb21678650d28903533c52b6d6184575a29b12839037f88e695e6e4e05580192eb1b5008570a871');
INSERT INTO public.blocks VALUES ('d819ab21c29723b2f0bc1cc237fd6b819c8a77f2c9811a584065edfc48f3cbad', 'motifs 8451e1ce8df5', '\x785e5bc3c8c050ad54945f5eac6465a0a3949c9f539a9b57ac64155dad549698539a0a62c682c453404ca5d4c4e40ca55a9d51c981918cad0500b6428cd8');
INSERT INTO public.blocks VALUES ('d819ab21c29723b2f0bc1cc237fd6b819c8a77f2c9811a584065edfc48f3cbad', 'placements 47565b654328', '\x785e5bc3c8c050ad54945f5eac6465a0a3949c9f539a9b57ac64155dad549698539a0a62c682c453404ca5d4c4e40ca55a9d51c981918cad0500b6428cd8');
INSERT INTO public.blocks VALUES ('d819ab21c29723b2f0bc1cc237fd6b819c8a77f2c9811a584065edfc48f3cbad', 'choruses 31137ec91152', '\x785e5bc3ccc050ad54945f5eac6465a8a3949c9f539a9b57ac64155dad549698539a0a621ac6822452406ca5d4c4e40ca55a1d645933bcd266a678a52d8cf04a9be095c5af37af342707af02039ac9e20f31033d23fc81420f05a3b2749125901248948dad0500969a2e8e');
INSERT INTO public.charts VALUES ('a7e46815-81c3-459a-8875-a99c6fd40c68', 'Four bars', 'key: F
meter: 4/4
idiom: blues
| F7 | Bb7 | C7 | F7 |
', '2026-11-29 18:09:34.172068+00', NULL, NULL);
INSERT INTO public.corpora VALUES ('ad0161dd-01b0-4d78-9078-be7cc2f1b988', 'Old corpus', '', '2026-11-29 18:09:36.642379+00', NULL);
INSERT INTO public.items VALUES ('065caa70-398f-408c-86da-6e850dbe7419', 'e2971e8d-8b46-4759-92bc-aea61c6ff630', 'ad0161dd-01b0-4d78-9078-be7cc2f1b988', 0, 'bad.mid', 'ac5a4718470a5be50178d026e882f1071b3f547a343618f56d5c7cbf6279e464', 'bad', NULL, NULL, 'key: F
idiom: blues
| F7 | Bb7 | C7 | F7 |', '{}', '{}', 'failed', 1, '{"code": "unknown-file", "todo": "Choose a MIDI file (.mid) or a MusicXML file (.musicxml, .xml, .mxl).", "where": "byte 0", "message": "bad.mid is neither a MIDI nor a MusicXML file"}', '2026-11-29 18:09:37.489702+00', 0, 'ac5a4718470a5be50178d026e882f1071b3f547a343618f56d5c7cbf6279e464', NULL);
INSERT INTO public.jobs VALUES ('e2971e8d-8b46-4759-92bc-aea61c6ff630', 'ad0161dd-01b0-4d78-9078-be7cc2f1b988', false, 1, '2026-11-29 18:09:37.233662+00', '2026-11-29 18:09:37.489702+00', NULL);
INSERT INTO public.lessons VALUES ('3aca19a2-fd59-4320-ac1e-cbd200ed8089', '92ab0d2b-7fad-4977-ad71-0f6ce14d5e93', '12-bar blues in F', '2026-02-05', '{"feel": "swing", "lens": null, "chart": "name: 12-bar blues\nkey: F\nmeter: 4/4\nidiom: blues\n| F7 | F7 | F7 | F7 |\n| Bb7 | Bb7 | F7 | F7 |\n| C7 | Bb7 | F7 | F7 |\n", "level": "intermediate", "shapes": [{"name": "third-and-steps", "fingers": [1, 2, 3, 4], "semitones": [0, 3, 5, 6], "anchorFinger": 2, "anchorDegrees": [{"degree": "1", "qualities": ["dominant", "minor", "minor-seventh", "minor-sixth", "minor-major"]}, {"degree": "5", "qualities": ["dominant", "minor", "minor-seventh", "minor-sixth", "minor-major"]}]}]}', '2026-11-29 18:09:36.615921+00');
INSERT INTO public.lines VALUES ('d819ab21c29723b2f0bc1cc237fd6b819c8a77f2c9811a584065edfc48f3cbad', '\x100000000100000002000000030000000400000005000000060000000700000008000000090000000a0000000b0000000c0000000d0000000e0000000f00000010000000000000000000003f0000803f0000c03f0000004000002040000040400000604000008040000090400000a0400000b0400000c0400000d0400000e0400000f0400000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f0000003f000000000000803f0000004000004040000080400000a0400000c0400000e04000000041000010410000204100003041000040410000504100006041000070410000803f0000004000004040000080400000803f0000004000004040000080400000803f0000004000004040000080400000803f000000400000404000008040010001000100010002000200020002000300030003000300040004000400040001000100010001000100010001000100010001000100010001000100010001004145484b464a4d50484c4f524d4b48450005090e0005090e0005090e000e090501020305020102040102030401030201', '\x4145484b464a4d50484c4f524d4b484501060a0f01060a0f01060a0f010f0a06010203050201020401020304010302010d0d0d0d0d0d0d0d0d0d0d0d0d0d0d00');
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
INSERT INTO public.migrations VALUES (14);
INSERT INTO public.migrations VALUES (15);
INSERT INTO public.migrations VALUES (16);
INSERT INTO public.migrations VALUES (17);
INSERT INTO public.player_notes VALUES ('42726f6f-d0b4-403e-900f-fab27a2c9770', '92ab0d2b-7fad-4977-ad71-0f6ce14d5e93', '2026-02-04', 'Well begun', '2026-11-29 18:09:34.124242+00');
INSERT INTO public.players VALUES ('92ab0d2b-7fad-4977-ad71-0f6ce14d5e93', 'Ilvi Oldenkamp', 'left-handed', '2026-11-29 18:09:34.041331+00', NULL, '{}', NULL);
INSERT INTO public.sources VALUES ('0b68cc4a94280c8dda6422f6e1141d4fdbdc0567df08038e7fd8935d61364856', '\x4d546864000000060000000100604d54726b0000008b00ff510307a12000904150608041000090455060804500009048506080480000904b5060804b00009046506080460000904a5060804a0000904d5060804d000090505060805000009048506080480000904c5060804c0000904f5060804f00009052506080520000904d5060804d0000904b5060804b000090485060804800009045506080450000ff2f00', '2026-11-29 18:09:36.257385+00', NULL);
INSERT INTO public.sources VALUES ('ac5a4718470a5be50178d026e882f1071b3f547a343618f56d5c7cbf6279e464', '\x6e6f204d49444920617420616c6c', '2026-11-29 18:09:37.233662+00', NULL);
INSERT INTO public.takes VALUES ('3174533c-e174-48ae-b947-99dacc34a536', '0b68cc4a94280c8dda6422f6e1141d4fdbdc0567df08038e7fd8935d61364856', 'old.mid', '92ab0d2b-7fad-4977-ad71-0f6ce14d5e93', 'An old take', '2026-02-03', 'key: F
meter: 4/4
idiom: blues
| F7 | Bb7 | C7 | F7 |
', '{"name": "old.mid"}', '{old,kept}', false, '{"own": "I rushed", "added": [], "asked": true, "edited": {}, "hidden": [], "signed": "", "version": 2, "askFirst": false}', 'd819ab21c29723b2f0bc1cc237fd6b819c8a77f2c9811a584065edfc48f3cbad', '2026-11-29 18:09:36.257385+00', NULL, NULL, NULL, NULL, NULL);
INSERT INTO public.tallies VALUES ('d819ab21c29723b2f0bc1cc237fd6b819c8a77f2c9811a584065edfc48f3cbad', 'dominant', 'root', 'chord tone', 4);
INSERT INTO public.tallies VALUES ('d819ab21c29723b2f0bc1cc237fd6b819c8a77f2c9811a584065edfc48f3cbad', 'dominant', 'third', 'chord tone', 4);
INSERT INTO public.tallies VALUES ('d819ab21c29723b2f0bc1cc237fd6b819c8a77f2c9811a584065edfc48f3cbad', 'dominant', 'fifth', 'chord tone', 4);
INSERT INTO public.tallies VALUES ('d819ab21c29723b2f0bc1cc237fd6b819c8a77f2c9811a584065edfc48f3cbad', 'dominant', 'seventh', 'chord tone', 4);
INSERT INTO public.tokens VALUES ('4e297bf9-8932-4d6f-9971-7d299c483c48', 'For Ilvi', 'reader', '{3174533c-e174-48ae-b947-99dacc34a536}', '423615188ca89735ae987622437bcdb05cfda48395d945afd5182997c9a102cf', '2026-11-29 18:09:36.414441+00', NULL, NULL, NULL, NULL);
ALTER TABLE ONLY public.analyses
    ADD CONSTRAINT analyses_pkey PRIMARY KEY (key);
ALTER TABLE ONLY public.audit
    ADD CONSTRAINT audit_pkey PRIMARY KEY (id);
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
ALTER TABLE ONLY public.source_pieces
    ADD CONSTRAINT source_pieces_pkey PRIMARY KEY (source, place);
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
CREATE INDEX audit_about ON public.audit USING btree (about, at);
CREATE INDEX audit_at ON public.audit USING btree (at, id);
CREATE INDEX ideas_found_key ON public.ideas_found USING btree (key);
CREATE INDEX items_corpus ON public.items USING btree (corpus_id, state);
CREATE INDEX items_job ON public.items USING btree (job_id, state);
CREATE INDEX items_sent ON public.items USING btree (corpus_id, sent_source);
CREATE INDEX items_source ON public.items USING btree (source);
CREATE INDEX lessons_player ON public.lessons USING btree (player_id);
CREATE INDEX player_notes_player ON public.player_notes USING btree (player_id);
CREATE INDEX takes_analysis ON public.takes USING btree (analysis);
CREATE INDEX takes_corpus ON public.takes USING btree (corpus_id);
CREATE INDEX takes_corpus_order ON public.takes USING btree (corpus_id, source, analysis, id);
CREATE INDEX takes_corpus_page ON public.takes USING btree (corpus_id, id);
CREATE INDEX takes_made_by ON public.takes USING btree (made_by);
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
ALTER TABLE ONLY public.source_pieces
    ADD CONSTRAINT source_pieces_source_fkey FOREIGN KEY (source) REFERENCES public.sources(sha256) ON DELETE CASCADE;
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
