namespace Athwart.Bench;

/// <summary>Where inputs, outputs and programs are; all are made here when missing.</summary>
internal sealed record Places
{
    public required string Root { get; init; }

    public required string Work { get; init; }

    /// <summary>Null when only the references are measured.</summary>
    public required string? Athwart { get; init; }

    public string Long => Path.Combine(Work, "card", "long.wav");

    public string Card => Path.Combine(Work, "card");

    public string Second => Path.Combine(Work, "second.wav");

    public string Takes => Path.Combine(Work, "takes");

    public string Out => Path.Combine(Work, "out");

    public string CDecode => Path.Combine(Work, "ref-decode");

    public string CLoudness => Path.Combine(Work, "ref-loudness");

    public static Places Prepare(BenchOptions options)
    {
        var root = FindRoot();
        var work = Path.GetFullPath(options.Work ?? Path.Combine(root, "bench", "work"));
        var athwart = Path.GetFullPath(options.Athwart ?? Path.Combine(root, "artifacts", "native", "athwart"));
        if (!options.References && !File.Exists(athwart))
            throw new FileNotFoundException($"{athwart} is not there; publish it (bench/README.md says how), or give --references", athwart);
        var places = new Places { Root = root, Work = work, Athwart = options.References ? null : athwart };
        places.MakeInputs();
        places.BuildReferences();
        return places;
    }

    private void MakeInputs()
    {
        foreach (var folder in (string[])[Card, Takes, Out])
            Directory.CreateDirectory(folder);
        InputMaker.Make(Long, seconds: 600, sampleRateHertz: 96000, seed: 1);
        InputMaker.Make(Second, seconds: 1, sampleRateHertz: 48000, seed: 2);
        for (var take = 0; take < 100; take++)
            InputMaker.Make(Path.Combine(Takes, $"take-{take:000}.wav"), seconds: 30, sampleRateHertz: 48000, seed: 100 + (uint)take);
    }

    private void BuildReferences()
    {
        var sources = Path.Combine(Root, "bench", "reference");
        Shell.Must($"gcc -O2 -mavx2 -o '{CDecode}' '{sources}/decode.c'");
        Shell.Must($"gcc -O2 -o '{CLoudness}' '{sources}/loudness.c' -lebur128 -lm");
    }

    private static string FindRoot()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "Athwart.slnx")))
                return folder.FullName;
        }

        throw new InvalidOperationException($"no Athwart.slnx above {AppContext.BaseDirectory}");
    }
}
