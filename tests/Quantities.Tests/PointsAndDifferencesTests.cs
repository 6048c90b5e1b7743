using System.Reflection;

namespace Athwart.Quantities.Tests;

/// <summary>A level is a point, a gain is a difference; the operators that exist say so, and the ones that are missing too.</summary>
public sealed class PointsAndDifferencesTests
{
    // Every operator of the quantities: a new one is a decision, made here.
    private static string[] ArithmeticOperators { get; } =
    [
        "Decibels + Decibels = Decibels",
        "Decibels - Decibels = Decibels",
        "-Decibels = Decibels",
        "DecibelsFullScale + Decibels = DecibelsFullScale",
        "DecibelsFullScale - Decibels = DecibelsFullScale",
        "DecibelsFullScale - DecibelsFullScale = Decibels",
        "FrameCount + FrameCount = FrameCount",
        "FrameCount - FrameCount = FrameCount",
        "FrameIndex + FrameCount = FrameIndex",
        "FrameIndex - FrameIndex = FrameCount",
        "Loudness + Decibels = Loudness",
        "Loudness - Loudness = Decibels",
    ];

    public static TheoryData<Type> Points() => [typeof(DecibelsFullScale), typeof(Loudness), typeof(FrameIndex)];

    public static TheoryData<Type> Quantities() => [.. QuantityTypes()];

    [Theory]
    [MemberData(nameof(Points))]
    public void TwoPoints_HaveNoSum(Type point) =>
        Assert.DoesNotContain(Operators(point), method => method.Name == "op_Addition" && method.GetParameters().All(parameter => parameter.ParameterType == point));

    [Fact]
    public void ArithmeticOperators_AreExactlyThese()
    {
        var found = QuantityTypes().SelectMany(Operators).Where(IsArithmetic).Select(Sentence).Order(StringComparer.Ordinal);

        Assert.Equal(ArithmeticOperators.Order(StringComparer.Ordinal), found, StringComparer.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Quantities))]
    public void NoQuantity_TurnsIntoANumberOrAnotherQuantityByItself(Type quantity) =>
        Assert.DoesNotContain(Operators(quantity), method => method.Name is "op_Implicit" or "op_Explicit");

    [Theory]
    [MemberData(nameof(Quantities))]
    public void AQuantity_IsOneNumberOfEightBytes(Type quantity)
    {
        var field = Assert.Single(quantity.GetFields(BindingFlags.Instance | BindingFlags.NonPublic | BindingFlags.Public));

        Assert.Contains(field.FieldType, new[] { typeof(double), typeof(long) });
    }

    [Theory]
    [MemberData(nameof(Quantities))]
    public void AQuantity_CanBeComparedByAllFourOperators(Type quantity) =>
        Assert.Equal(
            ["op_GreaterThan", "op_GreaterThanOrEqual", "op_LessThan", "op_LessThanOrEqual"],
            Operators(quantity).Select(method => method.Name).Where(name => name.Contains("Than", StringComparison.Ordinal)).Order(StringComparer.Ordinal),
            StringComparer.Ordinal);

    [Fact]
    public void LevelPlusGain_IsALevel_AndTheDifferenceOfLevelsIsTheGain()
    {
        var level = new DecibelsFullScale(-18);
        var louder = level + new Decibels(6);

        Assert.Equal(new DecibelsFullScale(-12), louder);
        Assert.Equal(new Decibels(6), louder - level);
        Assert.Equal(level, louder - new Decibels(6));
    }

    [Fact]
    public void LoudnessPlusGain_IsALoudness_AndTheDifferenceIsInDecibels()
    {
        Assert.Equal(new Loudness(-20), new Loudness(-23) + new Decibels(3));
        Assert.Equal(new Decibels(-10), new Loudness(-33) - new Loudness(-23));
    }

    [Fact]
    public void IndexPlusCount_IsAnIndex_AndTheDifferenceOfIndexesIsACount()
    {
        Assert.Equal(new FrameIndex(150), new FrameIndex(100) + new FrameCount(50));
        Assert.Equal(new FrameCount(50), new FrameIndex(150) - new FrameIndex(100));
    }

    [Fact]
    public void SilenceStaysSilence_UnderAnyFiniteGain()
    {
        Assert.Equal(DecibelsFullScale.Silence, DecibelsFullScale.Silence + new Decibels(60));
        Assert.Equal(Loudness.Silence, Loudness.Silence + new Decibels(60));
        Assert.Equal(Decibels.Silence, Decibels.Silence + new Decibels(60));
        Assert.Equal(DecibelsFullScale.Silence, new DecibelsFullScale(-3) + Decibels.Silence);
    }

    private static IEnumerable<Type> QuantityTypes() => typeof(Decibels).Assembly.GetExportedTypes()
        .Where(type => type is { IsValueType: true, IsEnum: false } && type != typeof(FrameRange));

    private static IEnumerable<MethodInfo> Operators(Type type) => type.GetMethods(BindingFlags.Static | BindingFlags.Public)
        .Where(method => method.IsSpecialName && method.Name.StartsWith("op_", StringComparison.Ordinal));

    private static bool IsArithmetic(MethodInfo method) =>
        !method.Name.Contains("Than", StringComparison.Ordinal) && method.Name is not ("op_Equality" or "op_Inequality");

    private static string Sentence(MethodInfo method)
    {
        var operands = method.GetParameters().Select(parameter => parameter.ParameterType.Name).ToArray();
        return method.Name switch
        {
            "op_Addition" => $"{operands[0]} + {operands[1]} = {method.ReturnType.Name}",
            "op_Subtraction" => $"{operands[0]} - {operands[1]} = {method.ReturnType.Name}",
            "op_UnaryNegation" => $"-{operands[0]} = {method.ReturnType.Name}",
            _ => $"{method.Name}({string.Join(", ", operands)}) = {method.ReturnType.Name}",
        };
    }
}
