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
INSERT INTO public.analyses VALUES ('9fcb1b9dad1770df29e5692152077457e1c9392919ec25d5b4b45c6178abdd11', '5', '{"key": "F", "low": 65, "high": 82, "idiom": "blues", "meter": "4/4", "notes": 16, "rests": 0, "swing": null, "tempo": 120, "method": "click", "motifs": 0, "phrases": 1, "seconds": 8, "choruses": 1, "runShare": 0, "warnings": 0, "chartName": null, "perSecond": 2, "soloNotes": 16, "confidence": 0.2880492976733616, "warningCodes": [], "placementShare": 0}', '\x1f8b0800000000000003ed5b5f73db3612ff2a183cddcdd036295124a5b7d86d7a9d9bde749a4c5f923c402428e24c020a005ad5b8feee370b8024284b8a943bdef8a17e484410582cf0db7f582e9eb1ca2bda90dfa9544c70bc8a024c38a9f78aa9be0d2f70809568654ef1ea1973d250bcc2a22e6e1b56e00097423644e3156e58c1a06b45668b04af70b84eb23c8fc9329e65619e150549e2d9ac4c6814c5511197c5bac8c3459216659885f38ca665912de78b2289e6499c2d121c602e345578152501563417bc5078950558335d53bce26d5d07784ba45678f5e919b302afb08e609c65f2a324f9238206a5c993a114e0ad141b499a6e783fc5cb979700e715917a58a6edf248f77885dfe30037545309afd794c0a471805bce345ec52f016605130d5ee175dd528503bc26d2f2c5db660dc322a02f242ce2d33356fb662d6a209c42670a7b18d91f9672d9f25c5b080cc91bc129acad6da82430f06718a872027b817f617f887a5f30c231ac649875767cd6fbf5a5d396a295e3797fbf68e2f9f1891f2e9e973d8dd77bd9b4f1f169a7d8e52f8362e00d7ba21c0758d33f40191ee97e85de7fe646625628be8b3f7323202b64a6f9ccff44ef53f427ba5fc3bf0ff00f3c7fe6f825c0620b2ca9a3faa6442d7e35526aa5139e3f6852967ec33f082f0605d19a4ade3d365457023485b45a6027f20f82974c36b4c0ab92d48ac23a9aade8c6100e5b0a3bfac5a9836d7722efe6853d727d5445b6f0dbbe113bfec135c0cb5c4849cda677bd294c1c057823486dda5e024c6ab6e10de5461d7ba6f39ae58fc035305c500e7b1fdeceb22c8c97b3659aa4f37902e602f86d55a7f22c7f6cb7f716f3b05f1b903550aea2591860558b1d55201ff05412a5bba7970037646be5a933436180b742312b3a210860ff6ae9bf8a321093de1658beac0c126b139436688601a6001ae8ebd9c5c15c8764663d999923036a703599794f267664602baf2613f764124726fb26992f0752b6239233be714fa40611269a192b6e84080401c446cb963a297e0fa61844eea5b7eb9d5be0e005b64ce7155e258b00ab2dad6bc6376019621c60c115b52014ad240ed5db456f29a2003fd15ae44ceff12a0b035c190dc3926d2aedb472e0e515c6bde131a6a9334705dd480ada0dcc49612c8c1402e86d5a56d08f608b3a8504b3f133ff27289f6ba919a7bfd951862cd2d676692237b018a7965a52bed195d5849ae4d42a957d5b32be71bec9fefcd01934c64b2a253526a766c5e06f2b491474d802d78dd0ac749068d6981d0d034cf25cb4300b7e8f0447b07c1405c84e81a215d21545b054244af43e0d90fada1249a12fbc29c48ec3985b006dd032cfdceae82ebc4b203401207e2172c340d9401a2dde330fefe508ef773ede00f1848877cef715e2f301715d3109bbec416ea9fef78887b7c919cc675361feaec77cd6633eb3989bc576a0b75bd36697b2de23625f8f51070be9a1be4cee92e569d8615f1dec2918c501f6071016077b3429e85de0f30a74e0c0815eb2525713e979789b9d417d3e15ea0f3deaf31ef5b945ddacb643dda13c427f0c3900e7411e2d677729e8f309cc419f3bccc7a6fdc7b50ffac4bade059eaf603791b6c35dd127ca0f91ffffa83b04bb9300ff232a6ba27bf4e31efdd8a2efd67c95d64324e289c02ccbeed233d61e5e7522006e621081fbb567ee675308c0ec887bb7a7ab37e4df27b3f5f763f00727ef0c7ee7e4efd7a0fa1a55a2a18828f36e4d245ad30de36a0c3ec48f1ef8f32cbe4bc3d3e043a6a0031f860ee0ffe0a9ff6c1af5efd1f75cfd01fa6fc1d74f16dffd70c4d7bbf8aef7f506fb8bd41eccb7877c9c857729e8ef09e4619b3be4d37150ef213f9f1477cfdb1fe0fe26dcfd648a3f04f683bb773adfbb7babf4dff4f790def3505fa4c95d0a3b7902f56c401d40f3437bdfdfcf275678cfdf1f007fbdc3b70dd7237f4ee527f3f7ef2ef7f790dd22bc40c464bd101ccaa1197a3dd2fd85460134db138f249ddd6567dc019c0ebe7d0488a7908df99150c0e43bdf502430992718e2ff9327fd873440db9a704d8beea80f31002c6f0c7936863c4db2b3278008c4a1c31cac897704f0319fc622f4a87b21c018f5b710014ce6087e3c12011c9ef601f86ffb01c8d378a867497c974270770a752fa7978e733c3f79a84f8bb9e7fec798bf09ef3fd961ffa723defff0b00fa05f64e0a383ccde3209efd233499ec84bee6563137fef47008b89f5dd8b00c6d85f1f007c37fae7547eb208e0e0d0772e02b84cf3a3832c5f142e92bbec9cc5f7137da743ff640afce3235efeaf7cfef5f9fce830cf172d666703ffe8c24c5f328ddef7b89fcceabf11bd9fccea1f64fa067fef4cff41a68fa05d256a8a94a65b2303a6d3eb682f3ac8f645b3f87cba2ff2f37da763fc74522978db69fec9c2bd6369fec3733f80dfe3fd0ddf7f90ec8be6717c3ed6f7d27d67beeca513db8093d9feb710eb4f66fd872f7b83cf3fccf6f9df78c6427080fc41b22f8ae3f0d8b7bd2fde421d6fd0c17cec7f864a13091505015eef4d91095e3dbfc0c383436e5c74d175374519a64fd177e9b11c68b60a4a0c60ca96bbdf664a98c6c27b43787103060e4abe6c05c30f7e18609b80f250cf66cb452ea502e6a4a7f270968aa170d389ddf7737396ce45fc40f1d68d139086fc5b4005d9f7f0d3302e24da52ae89169ce5df4b0658f84e32a6baac930f9be99b4440eed72798ff26991122a7b6e00264af61e72ca18b18ba56444e3274a58c9ca6739d908ce98ca4c49c0627119253faf64d2a23487e3a4be52cb457707396ce45fc5c2b22a7f8b952424e92b94e4046646cb568c54af061cfd83954a837634a135b1507c599b620d13ae79a686ae526174d033ed354461a076ea868f2484d6b801ba67a29db0aa5d81a8289106a3429316e13aa18c553d7271750dc98a4b7693c0ffbbfd9b152bb5252fa6edcfa8c4b2695fe970006ed77b89a8c9f2d6cd079de4f17de46cbd1df1cb677440a3eeef8a4e0f938a97461b6544baaf3aae34a9a126c5306a405fc8290d01b1fc4a6deb461105f29bcb20cb85126a168879914d3d9711040d0bd80c8d1ec2769b5096b2c74926e98d276705fc4bb260a34b3163bbc9a4501aed8a6c2ab381d4b5bd799d662871a56143545204a66589c75c316cba3c3602daf462510e49a5169d48f8abd51842391438d3c226bf1445f118043962590cd7b02d1cca3a077c29150276864714763b938caba16dbaeef32e9fa466136b6b22e64b51b6b8e0426741d091134f84264ce0c1dd77d75f010d5c3ff5d46c796eac2a9c4bb7120a9d21fbcd25f781eea89ed1e2ffa2d8213a9331944e670fe235ced8c3058e9588b961744eecd84d4103575b22054b2edcaa2fd68bca04f2cef14d2b2efb6c05b8bb7423881181361f24f5070bb08dc79c43dd8a3a97be89215e6f165388e585b351c48e020e68e3ae655d41198773f16dd8f75da53eb9401461cd9abaf2de19ad9daf16419a450a895c2b79a340dd2e5ed02027ea6b4bbb6f1e9d9afe3ed960c62e41d0a5db31150af2ee8486f906cd76c6c81574872acf730e5887672bcf7a0d9a3de03837e6f38891e6b1e188c8cfc17942b73747dc65b2aefdda9744ba515503317563b73787387bc83e353fffca10f517c59932d94ebbb1720e956ca7bbd3347b2bf30fd5f622aabbdae1a739ef581330ff77bb034169aee50fe8cc986300e8e106fa4b917d2850ee0f2b9a6f2096eaf386c7af30f5719be82d206f82ba8ecc04602e6415255891aee62986aa98a12b0172e45514856ba4cc38bbb43f1419335ab8d305a862f93cd765db02706d7cb8c118154b17595605dd49ee762dba56d7c01ec96650641700906264cc67fa967e6d2f9f80f2eabb5525737bded8b0e7acc03bc33d99123840126639b4d40e8d46388e36a4ab6ea5d695402b6b9167c4395fecd5c22719bf6eae6cbf89643c978e19e9c6b8300ef86a91b550909a9a98a12e8014e0fb491f18d29afb0de26c08fcc24b2b8d02c87e71d35292df00dee5ed2c78a29c41422c890443001fa5b9498d20cf5f70029816aa6754da19722ac006fde6a549135d3ea16bd33a99c56212111f8fc46488a76a2ad0ba4695d9b67c8f3d0a7eeb2c727eb8f4d45be09cc4c4c664a364de99e89164d9c674a37ecc77c1b8bd930cc7eecb1d97f9bfa05877ef6560de8da61a351d7c346631f0e1b639373922437dbe844bba144b580babb6906a92ec814da9dc3dd4d40a750404931f0eb25c93586590ca0c0f24dcb732a3561705f6c4054b3861a344b4aeb336086b769142d17611acee6b3249967e0d92dba3f6b408d0b8ddc044857448fea2c14aa1945bb8a4a93b253684b36146d5b6d4a329b5bf42be34870dae10b0c43f216526e684d4b807b2f5aa465ab34da01f9b1a09824ab5987891b4c69a7270c036c67f778b82d345ac2987b8a5c6672e03f4021d2c2dcf97478585d3dc023c062ada834a72173190910df315d5514ccdfa72f2fff017b988eed1c3b0000', '2026-11-29 18:08:23.783429+00');
INSERT INTO public.blocks VALUES ('9fcb1b9dad1770df29e5692152077457e1c9392919ec25d5b4b45c6178abdd11', 'notes d72c51725930', '\x785ea554db6ea330107593ddee766fdf60f9798430019cf4ad499b7ec4aa0f509c82969a2c38adaaaa3fb05fbd1aae09252652411913cfcc99993363ffbb20e495e5d973c12eb90fec3e4b778faa6097bf5fd95390ee247e32c51930e5a098a1705178287c1402c51cc50205b74b59faf0d289975ebc74e3a51ff7d91d468b300093c17dccde602fa4ef81bf00e180f040d8205c1002e636081fc402e6ce9e739a145a4687ee6c8db1ae50ac30de4d887219e2c6357eae515c95bb37286e2bbdb79fd510b00db6e501076e79e0806379308399e5810baee581079ee5810fbee581006179c61aed037d113cca433d376ae7b651cdf2e421d6fbe5bcb7d1f94e1a0dcc1970706006ee0863a759d950db01f227600e0be036700edc013e03ee0237b3c9d63886cb10e54a8cf591e174e25462dfc371f33ccb3403a6e3248f18b04db2d1310356c827a9743ce6be09d242428fee0f19b2fb38cb23aa3325cd3d56bb34351a70b02d1f6c6b3e12f104a0531acd12b591792ea30fa6cdb6dc8cc0ccea91d3b3a699a2a10c34e54037897a9039e59754c792e228d06c43d70268f17717e4126d511365cf0a7d2cbc5b5a00a705702a8072881a84ddb6dcabda19bed0a05223c4aa8598b510b30aa29cbf06a276398042ff1bba4903dd82b82d885b81d4c37b4226cb43a48e92baa286926588e9681a678f920645a90b839c86f2215105225d0fd052f3dad252a218b2e97ad3f15227d2f25265728498abd389598682062aa2010dd39da42ad312b7d1ea8f7c31a6d9b5efe808ad04d06d1a282da3668690ae3451b26ae07bb2fa338410c7eabc1d20aa3f40e86f28a2d7791355a64c7aa3d89553a7d31bc5803ec7592a69a1e5b63c55a55143cbd0b9e8f71f515ac7a1c2baf3d9d5d41fc4fdc37508668dddf823b7cfe0f576f746c819999029f9443e9373f2854cc8577241be91733225137246c6f5d57356bf93fa9dd66fe37f7c1df6ef9ebe7db31ee6f77eedf4e6dffed3ff5fed75718eadd3fa6b3f7ec34ef5bfe1af62ef3b21e407f9497e91ff47f3f218');
INSERT INTO public.blocks VALUES ('9fcb1b9dad1770df29e5692152077457e1c9392919ec25d5b4b45c6178abdd11', 'phrases 094091b24106', '\x785ee3666260a8562aca2f2f56b232d4514acecf29cdcd2b56b28aae562a4bcc294d0531950a0c956241722920ae526a62728652ad0eb2823cc20accf0ab3034c32f4d335913bcb21678650d28903533c52b6d6184575a29b12839037f88e695e6e4e05580192eb1b5008570a871');
INSERT INTO public.blocks VALUES ('9fcb1b9dad1770df29e5692152077457e1c9392919ec25d5b4b45c6178abdd11', 'motifs 8451e1ce8df5', '\x785e5bc3c8c050ad54945f5eac6465a0a3949c9f539a9b57ac64155dad549698539a0a62c682c453404ca5d4c4e40ca55a9d51c981918cad0500b6428cd8');
INSERT INTO public.blocks VALUES ('9fcb1b9dad1770df29e5692152077457e1c9392919ec25d5b4b45c6178abdd11', 'placements 47565b654328', '\x785e5bc3c8c050ad54945f5eac6465a0a3949c9f539a9b57ac64155dad549698539a0a62c682c453404ca5d4c4e40ca55a9d51c981918cad0500b6428cd8');
INSERT INTO public.blocks VALUES ('9fcb1b9dad1770df29e5692152077457e1c9392919ec25d5b4b45c6178abdd11', 'choruses 31137ec91152', '\x785e5bc3ccc050ad54945f5eac6465a8a3949c9f539a9b57ac64155dad549698539a0a621ac6822452406ca5d4c4e40ca55a1d645933bcd266a678a52d8cf04a9be095c5af37af342707af02039ac9e20f31033d23fc81420f05a3b2749125901248948dad0500969a2e8e');
INSERT INTO public.charts VALUES ('f2183258-9878-4d50-bb0e-d3c0892be7dd', 'Four bars', 'key: F
meter: 4/4
idiom: blues
| F7 | Bb7 | C7 | F7 |
', '2026-11-29 18:08:21.929739+00', NULL);
INSERT INTO public.corpora VALUES ('7ffe728c-822a-4744-ad26-acb361361752', 'Old corpus', '', '2026-11-29 18:08:24.08399+00', NULL);
INSERT INTO public.items VALUES ('7618dc2f-6a36-4ca3-9d9c-559d15d205ad', 'aa01356a-d7fd-43ac-b6dd-f3b2cf3d01de', '7ffe728c-822a-4744-ad26-acb361361752', 0, 'bad.mid', 'ac5a4718470a5be50178d026e882f1071b3f547a343618f56d5c7cbf6279e464', 'bad', NULL, NULL, 'key: F
idiom: blues
| F7 | Bb7 | C7 | F7 |', '{}', '{}', 'failed', 1, '{"code": "unknown-file", "todo": "Choose a MIDI file (.mid) or a MusicXML file (.musicxml, .xml, .mxl).", "where": "byte 0", "message": "bad.mid is neither a MIDI nor a MusicXML file"}', '2026-11-29 18:08:25.102024+00', 0, 'ac5a4718470a5be50178d026e882f1071b3f547a343618f56d5c7cbf6279e464', NULL);
INSERT INTO public.jobs VALUES ('aa01356a-d7fd-43ac-b6dd-f3b2cf3d01de', '7ffe728c-822a-4744-ad26-acb361361752', false, 1, '2026-11-29 18:08:25.010662+00', '2026-11-29 18:08:25.102024+00');
INSERT INTO public.lessons VALUES ('17805b4c-50f6-4879-a73a-b33c2b5a9549', '3d4b10d0-e450-4fc8-91f0-e88f1e1e2894', '12-bar blues in F', '2026-02-05', '{"feel": "swing", "lens": null, "chart": "name: 12-bar blues\nkey: F\nmeter: 4/4\nidiom: blues\n| F7 | F7 | F7 | F7 |\n| Bb7 | Bb7 | F7 | F7 |\n| C7 | Bb7 | F7 | F7 |\n", "level": "intermediate", "shapes": [{"name": "third-and-steps", "fingers": [1, 2, 3, 4], "semitones": [0, 3, 5, 6], "anchorFinger": 2, "anchorDegrees": [{"degree": "1", "qualities": ["dominant", "minor", "minor-seventh", "minor-sixth", "minor-major"]}, {"degree": "5", "qualities": ["dominant", "minor", "minor-seventh", "minor-sixth", "minor-major"]}]}]}', '2026-11-29 18:08:24.037302+00');
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
INSERT INTO public.migrations VALUES (14);
INSERT INTO public.player_notes VALUES ('b58c28fe-3505-4ff6-a986-bd48bf1ed931', '3d4b10d0-e450-4fc8-91f0-e88f1e1e2894', '2026-02-04', 'Well begun', '2026-11-29 18:08:21.875482+00');
INSERT INTO public.players VALUES ('3d4b10d0-e450-4fc8-91f0-e88f1e1e2894', 'Ilvi Oldenkamp', 'left-handed', '2026-11-29 18:08:21.808419+00', NULL, '{}', NULL);
INSERT INTO public.sources VALUES ('0b68cc4a94280c8dda6422f6e1141d4fdbdc0567df08038e7fd8935d61364856', '\x4d546864000000060000000100604d54726b0000008b00ff510307a12000904150608041000090455060804500009048506080480000904b5060804b00009046506080460000904a5060804a0000904d5060804d000090505060805000009048506080480000904c5060804c0000904f5060804f00009052506080520000904d5060804d0000904b5060804b000090485060804800009045506080450000ff2f00', '2026-11-29 18:08:23.794579+00');
INSERT INTO public.sources VALUES ('ac5a4718470a5be50178d026e882f1071b3f547a343618f56d5c7cbf6279e464', '\x6e6f204d49444920617420616c6c', '2026-11-29 18:08:25.010662+00');
INSERT INTO public.takes VALUES ('a6f9e6de-cbf3-48a1-b213-6fe96c2658ef', '0b68cc4a94280c8dda6422f6e1141d4fdbdc0567df08038e7fd8935d61364856', 'old.mid', '3d4b10d0-e450-4fc8-91f0-e88f1e1e2894', 'An old take', '2026-02-03', 'key: F
meter: 4/4
idiom: blues
| F7 | Bb7 | C7 | F7 |
', '{"name": "old.mid"}', '{old,kept}', false, '{"own": "I rushed", "added": [], "asked": true, "edited": {}, "hidden": [], "signed": "", "askFirst": false}', '9fcb1b9dad1770df29e5692152077457e1c9392919ec25d5b4b45c6178abdd11', '2026-11-29 18:08:23.794579+00', NULL, NULL, NULL, NULL);
INSERT INTO public.tallies VALUES ('9fcb1b9dad1770df29e5692152077457e1c9392919ec25d5b4b45c6178abdd11', 'dominant', 'root', 'chord tone', 4);
INSERT INTO public.tallies VALUES ('9fcb1b9dad1770df29e5692152077457e1c9392919ec25d5b4b45c6178abdd11', 'dominant', 'third', 'chord tone', 4);
INSERT INTO public.tallies VALUES ('9fcb1b9dad1770df29e5692152077457e1c9392919ec25d5b4b45c6178abdd11', 'dominant', 'fifth', 'chord tone', 4);
INSERT INTO public.tallies VALUES ('9fcb1b9dad1770df29e5692152077457e1c9392919ec25d5b4b45c6178abdd11', 'dominant', 'seventh', 'chord tone', 4);
INSERT INTO public.tokens VALUES ('255ba2ce-e720-44fb-8d5f-ba5888084e78', 'For Ilvi', 'reader', '{a6f9e6de-cbf3-48a1-b213-6fe96c2658ef}', '7713177cad73962a276453096e8fdfa2c37943b2c07615a05a061466387d9533', '2026-11-29 18:08:23.941458+00', NULL, NULL);
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
CREATE INDEX items_sent ON public.items USING btree (corpus_id, sent_source);
CREATE INDEX items_source ON public.items USING btree (source);
CREATE INDEX lessons_player ON public.lessons USING btree (player_id);
CREATE INDEX player_notes_player ON public.player_notes USING btree (player_id);
CREATE INDEX takes_analysis ON public.takes USING btree (analysis);
CREATE INDEX takes_corpus ON public.takes USING btree (corpus_id);
CREATE INDEX takes_corpus_order ON public.takes USING btree (corpus_id, source, analysis, id);
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
