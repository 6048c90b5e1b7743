using System.Runtime.InteropServices;
using Athwart.Catalogue;
using Athwart.Jobs.Listening;
using Athwart.Recordings;

namespace Athwart.Jobs.Tests.Listening;

public sealed class ListeningTests : IDisposable
{
    private const int Rate = 48_000;
    private readonly ListeningLibrary _library = new();

    public static TheoryData<string, double> Formats => new()
    {
        { "s16", 1.0 / 32768 },
        { "s24", 1.0 / 8388608 },
        { "s32", 1.0 / 8388608 },
        { "f32", 0 },
    };

    [Theory]
    [MemberData(nameof(Formats))]
    public void ASlice_IsTheSamplesOfTheFile_WhateverItsWord(string word, double tolerance)
    {
        var format = word switch { "s16" => SampleFormat.Int16, "s24" => SampleFormat.Int24, "s32" => SampleFormat.Int32, _ => SampleFormat.Float32 };
        var (mid, side) = (ListeningLibrary.Noise(50_000, 1), ListeningLibrary.Noise(50_000, 2));
        using var lease = _library.Room.Rent(_library.Add("gate", mid, side, format, 96_000), CancellationToken.None);
        foreach (var (from, count) in new[] { (0, 1), (17, 40_000), (49_990, 100), (50_000, 5) })
        {
            var floats = MemoryMarshal.Cast<byte, float>(PairSlices.Read(lease.Take, from, count, CancellationToken.None)).ToArray();
            var read = floats.Length / 2;
            Assert.Equal(Math.Clamp(50_000 - from, 0, count), read);
            for (var n = 0; n < read; n++)
            {
                Assert.Equal((float)mid[from + n], floats[n], tolerance);
                Assert.Equal((float)side[from + n], floats[read + n], tolerance);
            }
        }
    }

    [Theory]
    [InlineData(-1, 10)]
    [InlineData(0, 0)]
    [InlineData(0, PairSlices.MaxFrames + 1)]
    public void ASliceOutOfReason_IsRefused(long from, int frames)
    {
        using var lease = _library.Room.Rent(_library.Add("gate", ListeningLibrary.Noise(100, 1), ListeningLibrary.Noise(100, 2)), CancellationToken.None);
        Assert.Throws<ArgumentOutOfRangeException>(() => PairSlices.Read(lease.Take, from, frames, CancellationToken.None));
    }

    [Fact]
    public void AnUnknownTake_IsRefusedByName()
    {
        _library.Add("gate", [0, 0], [0, 0]);
        var error = Assert.Throws<LibraryException>(() => _library.Room.Rent(new("0123456789ab"), CancellationToken.None));
        Assert.Equal(LibraryErrorKind.NotFound, error.Kind);
    }

    [Fact]
    public void MoreTakesThanAreKeptOpen_AllRead_WhileTheirLeasesLast()
    {
        var ids = Enumerable.Range(0, 10).Select(n => _library.Add($"t{n}", ListeningLibrary.Noise(100, n), ListeningLibrary.Noise(100, n))).ToList();
        var leases = ids.Select(id => _library.Room.Rent(id, CancellationToken.None)).ToList();
        Assert.All(leases, lease => Assert.Equal(800, PairSlices.Read(lease.Take, 0, 100, CancellationToken.None).Length));
        leases.ForEach(lease => lease.Dispose());
        // Whether it was closed meanwhile or not, it reads.
        using var again = _library.Room.Rent(ids[0], CancellationToken.None);
        Assert.Equal(800, PairSlices.Read(again.Take, 0, 100, CancellationToken.None).Length);
    }

    // Two windows on one take: whoever comes second gets what the first opened, so nobody closes it, or its half-made peaks, under another's hands.
    [Fact]
    public async Task ManyWhoOpenOneTakeAtOnce_ShareIt()
    {
        var id = _library.Add("shared", ListeningLibrary.Noise(300_000, 1), ListeningLibrary.Noise(300_000, 2));
        using var start = new Barrier(8);
        var leases = await Task.WhenAll(Enumerable.Range(0, 8).Select(_ => Task.Factory.StartNew(
            () =>
            {
                start.SignalAndWait();
                return _library.Room.Rent(id, CancellationToken.None);
            },
            CancellationToken.None,
            TaskCreationOptions.LongRunning,
            TaskScheduler.Default)));
        Assert.All(leases, lease => Assert.Same(leases[0].Take, lease.Take));
        leases[0].Peaks();
        foreach (var lease in leases[1..])
            lease.Dispose();
        Assert.NotNull(ListeningLibrary.Peaks(leases[0]));
        leases[0].Dispose();
    }

    // While one is being listened to, nine others are looked at: it stays the same open take, and its peaks are made to the end.
    [Fact]
    public void ATakeInUse_IsNotClosedToMakeRoom()
    {
        var playing = _library.Add("playing", ListeningLibrary.Noise(500_000, 1), ListeningLibrary.Noise(500_000, 2));
        using var lease = _library.Room.Rent(playing, CancellationToken.None);
        lease.Peaks();
        for (var n = 0; n < 10; n++)
            _library.Room.Rent(_library.Add($"other{n}", ListeningLibrary.Noise(100, n), ListeningLibrary.Noise(100, n)), CancellationToken.None).Dispose();
        using var again = _library.Room.Rent(playing, CancellationToken.None);
        Assert.Same(lease.Take, again.Take);
        Assert.NotNull(ListeningLibrary.Peaks(again));
    }

    [Fact]
    public void WhoeverStillPlays_ReadsOn_AfterTheRoomIsClosed_AndNobodyElseComesIn()
    {
        var id = _library.Add("last", ListeningLibrary.Noise(100, 1), ListeningLibrary.Noise(100, 2));
        var room = new ListeningRoom(_library.Folder);
        var lease = room.Rent(id, CancellationToken.None);
        room.Dispose();
        Assert.Equal(800, PairSlices.Read(lease.Take, 0, 100, CancellationToken.None).Length);
        lease.Dispose();
        Assert.Throws<ObjectDisposedException>(() => room.Rent(id, CancellationToken.None));
    }

    // A sine of amplitude 0.5 in the mid and of 0.05 in the side: −6.02 and −26.02 dB in its row. 937.5 Hz lies on a bin of every window.
    // Found by reading: the width of a tile overflowed, and the search for the level never ended.
    [Theory]
    [InlineData(1L << 30, 11), InlineData((1L << 30) + 1, 12), InlineData(1L << 40, 16)]
    public void TheCoarsestLevel_HoldsTheWholeTake_HoweverLongItIs(long frames, int level) => Assert.Equal(level, SpectrogramTiles.TopLevel(frames));

    [Theory]
    [InlineData(SpectrogramPair.MidSide, -6.02, -26.02)]
    [InlineData(SpectrogramPair.LeftRight, -5.19, -6.94)]
    public void ASine_ReadsItsLevelInItsRow(SpectrogramPair pair, double first, double second)
    {
        const int Frames = 3 * Rate;
        var sine = Enumerable.Range(0, Frames).Select(n => Math.Sin(2 * Math.PI * 937.5 * n / Rate)).ToArray();
        using var lease = _library.Room.Rent(_library.Add("tone", [.. sine.Select(x => 0.5 * x)], [.. sine.Select(x => 0.05 * x)]), CancellationToken.None);
        var pyramid = ListeningLibrary.Peaks(lease);
        var top = SpectrogramTiles.TopLevel(Frames);
        var row = (int)(SpectrogramTiles.Rows * Math.Log(937.5 / SpectrogramTiles.LowestHertz) / Math.Log(Rate / 2.0 / SpectrogramTiles.LowestHertz));
        foreach (var level in Enumerable.Range(SpectrogramTiles.FinestLevel, top - SpectrogramTiles.FinestLevel + 1))
        {
            var tile = SpectrogramTiles.Read(lease.Take, pyramid, pair, level, 0, CancellationToken.None);
            Assert.Equal(first, Level(tile, 0, row), 0.26);
            Assert.Equal(second, Level(tile, SpectrogramTiles.Rows, row), 0.26);
            Assert.InRange(Level(tile, 0, SpectrogramTiles.Rows - 20), -127.5, -70);
            Assert.Empty(SpectrogramTiles.Read(lease.Take, pyramid, pair, level, 1 << 20, CancellationToken.None));
        }

        double Level(byte[] tile, int plane, int r) => (tile[((plane + r) * SpectrogramTiles.Columns) + 100] / 2.0) - 127.5;
    }

    // Ten minutes of silence with 30 ms of sound: coarse columns do not look everywhere, but they look at the loudest place.
    [Fact]
    public void AShortSound_IsNotMissedWhereColumnsAreLong()
    {
        const int Frames = 600 * Rate, At = 123 * Rate;
        var mid = new double[Frames];
        for (var n = 0; n < Rate * 30 / 1000; n++)
            mid[At + n] = 0.5 * Math.Sin(2 * Math.PI * 2000 * n / Rate);
        using var lease = _library.Room.Rent(_library.Add("drip", mid, new double[Frames], SampleFormat.Int16), CancellationToken.None);
        var pyramid = ListeningLibrary.Peaks(lease);
        var top = SpectrogramTiles.TopLevel(Frames);
        var tile = SpectrogramTiles.Read(lease.Take, pyramid, SpectrogramPair.MidSide, top, 0, CancellationToken.None);
        var column = (int)(At / PeakLayout.FramesPerBin(top));
        var strongest = Enumerable.Range(0, SpectrogramTiles.Rows).Max(r => tile[(r * SpectrogramTiles.Columns) + column]);
        Assert.InRange((strongest / 2.0) - 127.5, -15, -5);
    }

    // A 997 Hz sine has unity K-weighted gain (BS.1770-5): its mean square is half the square of its amplitude.
    [Fact]
    public void WeightedPowers_OfASine_AreItsMeanSquare()
    {
        var sine = Enumerable.Range(0, 4 * Rate).Select(n => Math.Sin(2 * Math.PI * 997 * n / Rate)).ToArray();
        using var lease = _library.Room.Rent(_library.Add("tone", [.. sine.Select(x => 0.5 * x)], [.. sine.Select(x => 0.05 * x)]), CancellationToken.None);
        var powers = WeightedPowers.Measure(lease.Take, 0, 4 * Rate, CancellationToken.None);
        // −0.691 of the loudness formula is the weighting's own gain at 997 Hz.
        Assert.Equal(0.125, powers.Mid * Math.Pow(10, -0.0691), 0.001);
        Assert.Equal(0.00125, powers.Side * Math.Pow(10, -0.0691), 0.00001);
        Assert.Equal(new(0, 0, 0), WeightedPowers.Measure(lease.Take, 5 * Rate, 4 * Rate, CancellationToken.None));
    }

    public void Dispose() => _library.Dispose();
}
