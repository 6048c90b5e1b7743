using Athwart.Jobs.Cut;
using Athwart.Jobs.TakeIn;
using Athwart.Recordings;
using Athwart.Tests.Shared;

namespace Athwart.Jobs.Tests.Cut;

/// <summary>A library with takes of bursts over a quiet floor.</summary>
internal sealed class SoundCard : IDisposable
{
    public const int Rate = 48000;
    public const string Session = "Lock";

    private readonly TemporaryFolder _folder = new();

    public string Root => _folder.Path;

    public string Library => _folder.File("library");

    /// <summary>Puts a take on the card: noise at a level, with bursts (from, seconds, level) in it.</summary>
    public SoundCard Add(string name, double seconds, double floor, (double At, double Seconds, double Level)[] bursts, IReadOnlyList<Marker>? markers = null, SampleFormat? format = null, float? bad = null)
    {
        Directory.CreateDirectory(_folder.File("card"));
        var random = new Random(name.Length);
        var frames = (int)(seconds * Rate);
        var block = new PlanarBlock<double>(2, frames) { Length = frames };
        for (var n = 0; n < frames; n++)
        {
            for (var c = 0; c < 2; c++)
                block.Channel(c)[n] = floor * ((2 * random.NextDouble()) - 1);
        }

        foreach (var (at, length, level) in bursts)
        {
            for (var n = (int)(at * Rate); n < (int)((at + length) * Rate); n++)
            {
                block.Channel(0)[n] += level * ((2 * random.NextDouble()) - 1);
                block.Channel(1)[n] += 0.5 * level * ((2 * random.NextDouble()) - 1);
            }
        }

        if (bad is { } value)
            block.Channel(0)[frames / 3] = value;
        Write(name, block, format ?? SampleFormat.Float32, markers ?? []);
        return this;
    }

    public SoundCard TakeIn()
    {
        new TakeInJob().Run(new() { Sources = [_folder.File("card")], LibraryFolder = Library, SessionName = Session, Date = new(2026, 5, 14) }, null, CancellationToken.None);
        return this;
    }

    public FindCutsReport Find(CutRules? rules = null, string? take = null, string? pictures = null) =>
        FindCutsJob.Run(new() { Library = Library, Session = Session, Rules = rules ?? CutRules.Usual, Take = take, Pictures = pictures, Threads = 2 }, null, CancellationToken.None);

    public ApproveCutsReport Approve(params int[] numbers) =>
        ApproveCutsJob.Run(new() { Library = Library, Session = Session, Numbers = numbers }, CancellationToken.None);

    public CutListDocument List() => ListCutsJob.Run(Library, Session, null, CancellationToken.None);

    public CutPlace Place(string take, string name) => new(Library, Session, take, name);

    public void Dispose() => _folder.Dispose();

    private void Write(string name, PlanarBlock<double> block, SampleFormat format, IReadOnlyList<Marker> markers)
    {
        using var writer = WaveWriter.Create(Path.Combine(_folder.File("card"), name + ".wav"), new() { ChannelCount = 2, SampleRateHertz = Rate, Format = format, Markers = markers, Durable = false });
        if (format.IsInteger)
        {
            var steps = new PlanarBlock<int>(2, block.Length) { Length = block.Length };
            for (var c = 0; c < 2; c++)
            {
                for (var n = 0; n < block.Length; n++)
                    steps.Channel(c)[n] = (int)(block.Channel(c)[n] * Math.ScaleB(1, format.ContainerBits - 1));
            }

            writer.Write(steps);
        }
        else
        {
            writer.Write(block);
        }

        writer.Complete();
    }
}
