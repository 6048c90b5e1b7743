namespace Athwart.Bench;

/// <summary>What is measured, against whom, and what was promised. Side level +1.58 dB is g = 1.2.</summary>
internal static class ContestList
{
    private static IReadOnlyList<int> CheckCodes { get; } = [0, 1];

    public static IReadOnlyList<Contest> All(Places places) =>
    [
        .. new[]
        {
            Decode(places), Shape(places), Check(places), Convert(places), TakeIn(places), DecodeTakes(places), CheckTakes(places),
            Start(places), DecodeSecond(places), DecodeMemory(places), CheckMemory(places),
        }.Select(contest => places.Athwart is null ? contest with { HasOurs = false, Entrants = [.. contest.Entrants.Where(IsOther)] } : contest),
    ];

    private static bool IsOther(Entrant entrant) => !entrant.Name.StartsWith("athwart", StringComparison.Ordinal);

    private static Contest Decode(Places p) => new(
        "decode 10 min of 96 kHz, 24 bits",
        [
            Ours(p, $"decode '{p.Long}' '{p.Out}/a.wav' --side-level 1.58", $"rm -f '{p.Out}/a.wav'"),
            Pan(p.Long, $"{p.Out}/f.wav") with { Target = 3 },
            Remix(p.Long, $"{p.Out}/s.wav") with { Target = 3 },
            new("plain C, AVX2, one thread, no dither", $"'{p.CDecode}' '{p.Long}' '{p.Out}/c.wav' 1.2", $"rm -f '{p.Out}/c.wav'") { Target = 1 / 1.5 },
        ]);

    // The nearest chain of the others' own filters: the matrix, one low cut, six bands, one limiter.
    private static Contest Shape(Places p) => new(
        "full treatment of 10 min of 96 kHz, 24 bits",
        [
            Ours(p, $"decode '{p.Long}' '{p.Out}/a.wav' --treatment '{p.Root}/bench/treatments/full.json' --word s24", $"rm -f '{p.Out}/a.wav'"),
            new(
                "ffmpeg pan, highpass, 6 equalizers, alimiter",
                $"ffmpeg -v error -nostdin -i '{p.Long}' -af 'pan=stereo|c0=c0+1.2*c1|c1=c0-1.2*c1,highpass=f=40,equalizer=f=250:t=q:w=1:g=-2,equalizer=f=2500:t=q:w=0.8:g=2,equalizer=f=9000:t=q:w=0.7:g=1,equalizer=f=300:t=q:w=1:g=-3,equalizer=f=3000:t=q:w=0.8:g=1.5,equalizer=f=10000:t=q:w=0.7:g=2,alimiter=limit=0.5' -c:a pcm_s24le '{p.Out}/f.wav'",
                $"rm -f '{p.Out}/f.wav'") { Target = 2 },
            Ours(p, $"decode '{p.Long}' '{p.Out}/a.wav' --treatment '{p.Root}/bench/treatments/full.json' --word s24", $"rm -f '{p.Out}/a.wav'", core: true) with { Name = "athwart on one core" },
        ]);

    private static Contest Check(Places p) => new(
        "check 10 min of 96 kHz, one core",
        [
            Ours(p, $"check '{p.Long}' --json", core: true) with { Good = CheckCodes },
            new("ffmpeg ebur128=peak=true,astats", $"taskset -c 0 ffmpeg -v error -nostdin -i '{p.Long}' -af ebur128=peak=true,astats -f null -") { Target = 2 },
            new("libebur128 I + LRA + TP", $"taskset -c 0 '{p.CLoudness}' '{p.Long}' 1.2") { Target = 6 },
        ]);

    private static Contest Convert(Places p) => new(
        "10 min from 96 to 48 kHz",
        [
            Ours(p, $"decode '{p.Long}' '{p.Out}/a.wav' --rate 48000 --side-level 0", $"rm -f '{p.Out}/a.wav'"),
            new("sox rate -v", $"sox -D '{p.Long}' '{p.Out}/s.wav' rate -v 48000", $"rm -f '{p.Out}/s.wav'") { Target = 1 },
            new(
                "ffmpeg soxr, precision 28",
                $"ffmpeg -v error -nostdin -i '{p.Long}' -af aresample=48000:resampler=soxr:precision=28 -c:a pcm_s24le '{p.Out}/f.wav'",
                $"rm -f '{p.Out}/f.wav'") { Target = 1 },
        ]);

    private static Contest TakeIn(Places p) => new(
        "take in a card of one 346 MB file",
        [
            Ours(p, $"take-in '{p.Card}' --library '{p.Out}/library' --session bench", Remove($"{p.Out}/library")),
            new(
                "cp, then sha256sum of both",
                $"cp '{p.Long}' '{p.Out}/copy.wav' && sha256sum '{p.Long}' '{p.Out}/copy.wav'",
                $"rm -f '{p.Out}/copy.wav'") { Target = 3.5 },
            new(
                "cp, sync, then sha256sum of both",
                $"cp '{p.Long}' '{p.Out}/copy2.wav' && sync '{p.Out}/copy2.wav' && sha256sum '{p.Long}' '{p.Out}/copy2.wav'",
                $"rm -f '{p.Out}/copy2.wav'"),
        ]);

    private static Contest DecodeTakes(Places p)
    {
        var many = $"decode '{p.Takes}'/*.wav --into '{p.Out}/many' --side-level 1.58";
        return new(
            "decode 100 takes of 30 s at 48 kHz",
            [
                Ours(p, many, Empty($"{p.Out}/many")),
                new(
                    "sox remix, two at a time",
                    $"cd '{p.Takes}' && ls | xargs -P 2 -I @ sox -D @ '{p.Out}/sox/'@ remix 1v1,2v1.2 1v1,2v-1.2",
                    Empty($"{p.Out}/sox")) { Target = 6 },
                Ours(p, many, Empty($"{p.Out}/many"), core: true) with { Name = "athwart on one core", Target = 1.7 },
            ]);
    }

    private static Contest CheckTakes(Places p) => new(
        "check 100 takes of 30 s at 48 kHz",
        [
            Ours(p, $"check '{p.Takes}' --json") with { Good = CheckCodes },
            new("libebur128 I + LRA + TP, two at a time", $"ls '{p.Takes}'/*.wav | xargs -P 2 -I @ '{p.CLoudness}' @ 1.2") { Target = 6 },
            Ours(p, $"check '{p.Takes}' --json", core: true) with { Name = "athwart on one core", Target = 1.7, Good = CheckCodes },
        ]);

    private static Contest Start(Places p) => new(
        "start of the program",
        [
            Ours(p, "--help"),
            new("sox --version", "sox --version"),
            new("ffmpeg -version", "ffmpeg -version"),
            new("/bin/true", "/bin/true"),
        ])
    { Bound = 0.040, RoundFactor = 4 };

    private static Contest DecodeSecond(Places p) => new(
        "decode 1 s of 48 kHz",
        [
            Ours(p, $"decode '{p.Second}' '{p.Out}/a.wav' --side-level 1.58", $"rm -f '{p.Out}/a.wav'"),
            Remix(p.Second, $"{p.Out}/s.wav"),
            Pan(p.Second, $"{p.Out}/f.wav"),
        ])
    { Bound = 0.060, RoundFactor = 4 };

    private static Contest DecodeMemory(Places p) => new(
        "memory: decode 10 min of 96 kHz",
        [
            Ours(p, $"decode '{p.Long}' '{p.Out}/a.wav' --side-level 1.58", $"rm -f '{p.Out}/a.wav'"),
            Pan(p.Long, $"{p.Out}/f.wav"),
            Remix(p.Long, $"{p.Out}/s.wav"),
        ])
    { Bound = 64, Measure = ContestMeasure.Mebibytes };

    private static Contest CheckMemory(Places p) => new(
        "memory: check 10 min of 96 kHz",
        [
            Ours(p, $"check '{p.Long}' --json") with { Good = CheckCodes },
            new("libebur128 I + LRA + TP", $"'{p.CLoudness}' '{p.Long}' 1.2"),
        ])
    { Bound = 250, Measure = ContestMeasure.Mebibytes };

    private static Entrant Ours(Places p, string words, string prepare = "", bool core = false) =>
        new("athwart", $"{(core ? "taskset -c 0 " : "")}'{p.Athwart}' {words}", prepare);

    private static Entrant Pan(string input, string output) => new(
        "ffmpeg pan",
        $"ffmpeg -v error -nostdin -i '{input}' -af 'pan=stereo|c0=c0+1.2*c1|c1=c0-1.2*c1' -c:a pcm_s24le '{output}'",
        $"rm -f '{output}'");

    private static Entrant Remix(string input, string output) => new("sox remix", $"sox -D '{input}' '{output}' remix 1v1,2v1.2 1v1,2v-1.2", $"rm -f '{output}'");

    // Originals are read-only by design.
    private static string Remove(string folder) => $"if [ -d '{folder}' ]; then chmod -R u+w '{folder}'; fi; rm -rf '{folder}'";

    private static string Empty(string folder) => $"rm -rf '{folder}'; mkdir -p '{folder}'";
}
