"""From dyed rovings to singles to plied yarn, in metres and colours."""
