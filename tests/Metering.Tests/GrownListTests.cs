namespace Athwart.Metering.Tests;

public class GrownListTests
{
    [Fact]
    public void Items_AreThoseAddedInOrder_AcrossPieces()
    {
        var list = new GrownList<int>();
        for (var n = 0; n < (2 * GrownList<int>.Piece) + 3; n++)
            list.Add(3 * n);
        Assert.Equal(Enumerable.Range(0, (2 * GrownList<int>.Piece) + 3).Select(n => 3 * n), list);
        Assert.Equal(3 * GrownList<int>.Piece, list[GrownList<int>.Piece]);
        Assert.Throws<ArgumentOutOfRangeException>(() => list[list.Count]);
        Assert.Throws<ArgumentOutOfRangeException>(() => list[-1]);
    }

    [Fact]
    public void AList_NeverHoldsMoreThanOnePieceAhead()
    {
        var list = new GrownList<double>();
        var before = GC.GetAllocatedBytesForCurrentThread();
        for (var n = 0; n < 20 * GrownList<double>.Piece; n++)
            list.Add(n);
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 20 * GrownList<double>.Piece * 8, (21 * GrownList<double>.Piece * 8) + 4096);
    }
}
