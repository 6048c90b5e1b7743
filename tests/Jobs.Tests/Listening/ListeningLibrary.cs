using Athwart.Catalogue;
using Athwart.Jobs.Listening;
using Athwart.Jobs.TakeIn;
using Athwart.Recordings;
using Athwart.Tests.Shared;

namespace Athwart.Jobs.Tests.Listening;

/// <summary>A library whose takes a test writes sample by sample.</summary>
internal sealed class ListeningLibrary : IDisposable
{
    private readonly TemporaryFolder _folder = new();
    private ListeningRoom? _room;

    public string Folder => _folder.File("library");

    public ListeningRoom Room => _room ??= new(Folder);

    public string PeakFolder => Path.Combine(Folder, ListeningRoom.CacheName, "peaks");

    /// <summary>Takes in one take of mid and side and returns its id.</summary>
    public TakeId Add(string name, double[] mid, double[] side, SampleFormat? format = null, int rate = 48_000)
    {
        var card = Directory.CreateDirectory(_folder.File("card-" + name)).FullName;
        using (var writer = WaveWriter.Create(Path.Combine(card, name + ".wav"), new() { ChannelCount = 2, SampleRateHertz = rate, Format = format ?? SampleFormat.Float32, Durable = false }))
        {
            PlanarBlock<double> block = new(2, mid.Length) { Length = mid.Length };
            mid.CopyTo(block.Channel(0));
            side.CopyTo(block.Channel(1));
            if (writer is not null && (format ?? SampleFormat.Float32).IsInteger)
                WriteSteps(writer, block, (format ?? SampleFormat.Float32).ContainerBits);
            else
                writer!.Write(block);
            writer!.Complete();
        }

        new TakeInJob().Run(new() { Sources = [card], LibraryFolder = Folder, SessionName = name, Date = new(2026, 5, 14) }, null, CancellationToken.None);
        return Id(name);
    }

    public TakeId Id(string session)
    {
        using var library = Library.Open(Folder, LibraryAccess.Write);
        return Jobs.Sessions.SessionLoader.Load(library, session, CancellationToken.None).Takes[0].Catalogued.Id;
    }

    /// <summary>Waits until the peaks are made.</summary>
    public static PeakPyramid Peaks(TakeLease lease)
    {
        for (var tries = 0; tries < 2_000; tries++)
        {
            var state = lease.Peaks();
            if (state.Error is { } error)
                throw error;
            if (state.Pyramid is { } pyramid)
                return pyramid;
            Thread.Sleep(5);
        }

        throw new TimeoutException("the peaks were not made in 10 s");
    }

    public static double[] Noise(int frames, int seed, double level = 0.5)
    {
        var random = new Random(seed);
        return [.. Enumerable.Range(0, frames).Select(_ => ((random.NextDouble() * 2) - 1) * level)];
    }

    public void Dispose()
    {
        _room?.Dispose();
        _folder.Dispose();
    }

    private static void WriteSteps(WaveWriter writer, PlanarBlock<double> samples, int bits)
    {
        PlanarBlock<int> steps = new(samples.ChannelCount, samples.Length) { Length = samples.Length };
        for (var c = 0; c < samples.ChannelCount; c++)
        {
            for (var n = 0; n < samples.Length; n++)
                steps.Channel(c)[n] = (int)Math.Clamp(Math.Round(Math.ScaleB(samples.Channel(c)[n], bits - 1)), -Math.ScaleB(1, bits - 1), Math.ScaleB(1, bits - 1) - 1);
        }

        writer.Write(steps);
    }
}
