namespace Rootgap.App.Site;

/// <summary>What a person wishes of a place where the line may be parted.</summary>
public enum PlaceWish
{
    AsBest,
    Field,
    FinalFit,
    Never,
}
