using CsCheck;

namespace Athwart.Quantities.Tests;

/// <summary>All quantities order as their numbers do, by operators and by CompareTo alike.</summary>
public sealed class OrderingTests
{
    private static Gen<double> AnyLevel { get; } = Gen.OneOf(Gen.Double[-200, 100], Gen.Const(double.NegativeInfinity), Gen.Const(0.0));

    [Fact]
    public void Decibels_OrderAsTheirNumbers() => Check(AnyLevel, value => new Decibels(value), (a, b) => (a < b, a <= b, a > b, a >= b));

    [Fact]
    public void Levels_OrderAsTheirNumbers() => Check(AnyLevel, value => new DecibelsFullScale(value), (a, b) => (a < b, a <= b, a > b, a >= b));

    [Fact]
    public void Loudness_OrdersAsItsNumbers() => Check(AnyLevel, value => new Loudness(value), (a, b) => (a < b, a <= b, a > b, a >= b));

    [Fact]
    public void Hertz_OrderAsTheirNumbers() => Check(AnyLevel, value => new Hertz(value), (a, b) => (a < b, a <= b, a > b, a >= b));

    [Fact]
    public void Degrees_OrderAsTheirNumbers() => Check(AnyLevel, value => new Degrees(value), (a, b) => (a < b, a <= b, a > b, a >= b));

    [Fact]
    public void FrameIndexes_OrderAsTheirNumbers() => Check(Gen.Long[0, 5], value => new FrameIndex(value), (a, b) => (a < b, a <= b, a > b, a >= b));

    [Fact]
    public void FrameCounts_OrderAsTheirNumbers() => Check(Gen.Long[0, 5], value => new FrameCount(value), (a, b) => (a < b, a <= b, a > b, a >= b));

    [Fact]
    public void Silence_IsBelowEveryLevel()
    {
        Assert.True(DecibelsFullScale.Silence < new DecibelsFullScale(-1000));
        Assert.True(Loudness.Silence < new Loudness(-1000));
        Assert.True(Decibels.Silence < new Decibels(-1000));
    }

    private static void Check<TNumber, TQuantity>(Gen<TNumber> numbers, Func<TNumber, TQuantity> make, Func<TQuantity, TQuantity, (bool, bool, bool, bool)> operators)
        where TNumber : IComparable<TNumber>
        where TQuantity : struct, IComparable<TQuantity> => Gen.Select(numbers, numbers).Sample((a, b) =>
    {
        var order = a.CompareTo(b);
        Assert.Equal((order < 0, order <= 0, order > 0, order >= 0), operators(make(a), make(b)));
        Assert.Equal(order, make(a).CompareTo(make(b)));
    });
}
