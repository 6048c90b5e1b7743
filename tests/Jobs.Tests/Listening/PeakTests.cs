using System.Buffers.Binary;
using Athwart.Jobs.Listening;

namespace Athwart.Jobs.Tests.Listening;

public sealed class PeakTests : IDisposable
{
    private readonly ListeningLibrary _library = new();

    [Theory]
    [InlineData(0, 5, 0)]
    [InlineData(1, 5, 1)]
    [InlineData(1_048_576, 5, 1024)]
    [InlineData(1_048_577, 6, 257)]
    [InlineData(691_200_000, 10, 660)]
    public void TheCoarsestLevel_HoldsTheWholeTakeInOneTile(long frames, int top, long bins)
    {
        var layout = new PeakLayout(frames);
        Assert.Equal((top, bins), (layout.TopLevel, layout.Bins(layout.TopLevel)));
        Assert.InRange(layout.Tiles(layout.TopLevel), 0, 1);
    }

    [Fact]
    public void TwoHoursAt96Kilohertz_AreKeptInLessThanOnePercentOfTheFile()
        => Assert.InRange(new PeakLayout(2L * 3600 * 96_000).StoredBytes, 1, 2L * 3600 * 96_000 * 6 / 100);

    // Against the definition, computed the slow way, at every level and in tiles that a take does not fill.
    [Fact]
    public void EveryBin_HasTheExtremesAndMomentsOfItsFrames()
    {
        const int Frames = 1_100_003;
        var (mid, side) = (ListeningLibrary.Noise(Frames, 1), ListeningLibrary.Noise(Frames, 2, 0.2));
        var id = _library.Add("gate", mid, side);
        using var lease = _library.Room.Rent(id, CancellationToken.None);
        var pyramid = ListeningLibrary.Peaks(lease);
        Assert.Equal(6, pyramid.Layout.TopLevel);
        for (var level = 0; level <= pyramid.Layout.TopLevel; level++)
        {
            var last = pyramid.Layout.Tiles(level) - 1;
            foreach (var tile in new[] { 0, last / 2, last }.Distinct())
                CheckTile(lease.Take, pyramid, level, tile, mid, side);
            Assert.Empty(PeakTiles.Read(lease.Take, pyramid, level, last + 1, CancellationToken.None));
        }
    }

    [Fact]
    public void SamplesThatAreNoNumber_AreLeftOut()
    {
        var (mid, side) = (ListeningLibrary.Noise(3000, 1), ListeningLibrary.Noise(3000, 2));
        (mid[10], mid[1500], side[2999]) = (double.NaN, double.PositiveInfinity, double.NegativeInfinity);
        using var lease = _library.Room.Rent(_library.Add("gate", mid, side), CancellationToken.None);
        var tile = PeakTiles.Read(lease.Take, ListeningLibrary.Peaks(lease), PeakLayout.StoredLevel, 0, CancellationToken.None);
        for (var n = 0; n < tile.Length; n += 2)
            Assert.InRange((double)BinaryPrimitives.ReadHalfLittleEndian(tile.AsSpan(n)), -1.01, 1.01);
    }

    [Fact]
    public void PeaksAreMadeOnce_AndReadByTheNextRoom()
    {
        var id = _library.Add("gate", ListeningLibrary.Noise(5000, 1), ListeningLibrary.Noise(5000, 2));
        using (var lease = _library.Room.Rent(id, CancellationToken.None))
            ListeningLibrary.Peaks(lease);
        var file = Assert.Single(Directory.GetFiles(_library.PeakFolder));
        var made = File.GetLastWriteTimeUtc(file);
        using var room = new ListeningRoom(_library.Folder);
        using var again = room.Rent(id, CancellationToken.None);
        Assert.NotNull(again.Peaks().Pyramid);
        Assert.Equal(made, File.GetLastWriteTimeUtc(file));
    }

    // A file cut short, of another version or of another take counts as absent.
    [Theory]
    [InlineData(0)]
    [InlineData(8)]
    [InlineData(12)]
    [InlineData(24)]
    [InlineData(-1)]
    public void ADamagedFile_IsMadeAgain(int place)
    {
        var id = _library.Add("gate", ListeningLibrary.Noise(5000, 1), ListeningLibrary.Noise(5000, 2));
        byte[] sound;
        using (var lease = _library.Room.Rent(id, CancellationToken.None))
            sound = PeakTiles.Read(lease.Take, ListeningLibrary.Peaks(lease), PeakLayout.StoredLevel, 0, CancellationToken.None);
        var file = Assert.Single(Directory.GetFiles(_library.PeakFolder));
        var bytes = File.ReadAllBytes(file);
        if (place < 0)
            bytes = bytes[..^1];
        else
            bytes[place] ^= 1;
        File.WriteAllBytes(file, bytes);
        using var room = new ListeningRoom(_library.Folder);
        using var again = room.Rent(id, CancellationToken.None);
        Assert.Equal(sound, PeakTiles.Read(again.Take, ListeningLibrary.Peaks(again), PeakLayout.StoredLevel, 0, CancellationToken.None));
        Assert.Single(Directory.GetFiles(_library.PeakFolder));
    }

    [Fact]
    public void OtherRoles_AreAnotherKey_AndAnotherPicture()
    {
        var id = _library.Add("gate", ListeningLibrary.Noise(5000, 1, 0.9), ListeningLibrary.Noise(5000, 2, 0.1));
        using var before = _library.Room.Rent(id, CancellationToken.None);
        Jobs.Sessions.RolesJob.Run(new(_library.Folder, "gate", "gate", new(2, 1, null), Clear: false), CancellationToken.None);
        using var after = _library.Room.Rent(id, CancellationToken.None);
        Assert.NotEqual(before.Take.Key, after.Take.Key, StringComparer.Ordinal);
        var was = PeakTiles.Read(before.Take, null, 2, 0, CancellationToken.None);
        var now = PeakTiles.Read(after.Take, null, 2, 0, CancellationToken.None);
        Assert.Equal(was[..4], now[4..8]);
    }

    public void Dispose() => _library.Dispose();

    private static void CheckTile(ListeningTake take, PeakPyramid pyramid, int level, long tile, double[] mid, double[] side)
    {
        var bytes = PeakTiles.Read(take, pyramid, level, tile, CancellationToken.None);
        var size = PeakLayout.FramesPerBin(level);
        Assert.Equal(pyramid.Layout.BinsOfTile(level, tile) * PeakLayout.BinBytes, bytes.Length);
        for (var bin = 0; bin < bytes.Length / PeakLayout.BinBytes; bin += Math.Max(1, bytes.Length / PeakLayout.BinBytes / 7))
        {
            var from = (int)(((tile * PeakLayout.BinsPerTile) + bin) * size);
            var to = (int)Math.Min(mid.Length, from + size);
            var (m, s) = (Array.ConvertAll(mid[from..to], x => (float)x), Array.ConvertAll(side[from..to], x => (float)x));
            var (left, right) = (m.Zip(s, (a, b) => a + b).ToArray(), m.Zip(s, (a, b) => a - b).ToArray());
            double[] expected =
            [
                m.Min(), m.Max(), s.Min(), s.Max(), left.Min(), left.Max(), right.Min(), right.Max(),
                Math.Sqrt(m.Average(x => (double)x * x)), Math.Sqrt(s.Average(x => (double)x * x)),
                m.Zip(s, (a, b) => (double)a * b).Sum() / Math.Sqrt(m.Sum(x => (double)x * x) * s.Sum(x => (double)x * x)),
            ];
            for (var n = 0; n < expected.Length; n++)
                Assert.Equal(expected[n], (double)BinaryPrimitives.ReadHalfLittleEndian(bytes.AsSpan((bin * PeakLayout.BinBytes) + (2 * n))), 0.0006);
        }
    }
}
